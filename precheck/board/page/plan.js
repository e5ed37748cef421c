// The plan of one story to scale: what stands on it, and what a hand does to it. Inches of house in, pixels out.

import { draw, feet } from "./make.js";
import { drafted, marks, sizes } from "./overlay.js";
import { boxed, grid, member, opening, roomName, spot, stair } from "./symbols.js";
import { dragged, putHere } from "./tray.js";
import { isAsItIs, shaping, standing } from "./shapes.js";
import { holds, outward, pushed, wallsOf } from "./walls.js";

const NEAR = 9; // pixels within which a wall counts as meant
const MARGIN = 36; // inches of house around all that is drawn
const WALL = 12; // inches of stroke behind an outline: the half outside it reads as its wall
const FOOT = 12;
const BY_BOX = ["room", "stair", "hole"]; // tools that draw a box on the grid

/** Where something comes in reading: from the top of the page down, and from the left. */
function rank(one) {
  const [x, y] = one.middle ?? one.at ?? one.ends?.[0] ?? [one.box[0] + one.box[2] / 2, one.box[1] + one.box[3] / 2];
  return -Math.round(y / 24) * 10_000 + x;
}

/** What goes lies under what comes in its place. */
const goneFirst = (list) => [...list.filter((one) => one.phase === "removed"), ...list.filter((one) => one.phase !== "removed")];

export class Plan {
  constructor(node, page, hooks) {
    Object.assign(this, { node, page, hooks, view: null, drag: null });
    node.addEventListener("pointerdown", (event) => this.down(event));
    node.addEventListener("pointermove", (event) => this.move(event));
    node.addEventListener("pointerup", (event) => this.up(event));
    node.addEventListener("pointercancel", () => { this.drag = null; this.show(); });
    node.addEventListener("keydown", (event) => {
      const part = event.target.closest?.("[data-part]")?.dataset.part;
      if (part && (event.key === "Enter" || event.key === " ")) {
        event.preventDefault();
        this.hooks.choose(part, true);
      }
    });
    node.addEventListener("wheel", (event) => {
      if (!event.ctrlKey && !event.metaKey) return; // plain scrolling scrolls the page
      event.preventDefault();
      this.zoom(event.deltaY < 0 ? 1.1 : 0.9);
    }, { passive: false });
    new ResizeObserver(() => this.page.state?.plan && this.show()).observe(node);
  }

  get plan() { return this.page.state.plan; }
  /** What stands on the story that is shown, in the order in which one reads. */
  here(list) { return standing(list.filter((one) => one.story === this.page.story)).sort((a, b) => rank(a) - rank(b)); }
  size() { return [this.node.clientWidth || 600, this.node.clientHeight || 420]; }
  px([x, y]) {
    const [width, height] = this.size();
    return [(x - this.view.x) * this.view.k + width / 2, height / 2 - (y - this.view.y) * this.view.k];
  }
  inches(event) {
    const frame = this.node.getBoundingClientRect();
    return this.inchesAt([event.clientX - frame.left - this.node.clientLeft, event.clientY - frame.top - this.node.clientTop]);
  }
  inchesAt([x, y]) {
    const [width, height] = this.size();
    return [(x - width / 2) / this.view.k + this.view.x, (height / 2 - y) / this.view.k + this.view.y];
  }

  /** Focus a part on the plan, else the first one, else the plan. */
  focus(id) { (this.node.querySelector(`[data-part="${CSS.escape(id)}"]`) ?? this.node.querySelector("[data-part]") ?? this.node).focus(); }

  /** Let go of what is being dragged; return whether there was anything. */
  givenUp() {
    if (!this.drag) return false;
    if (this.drag.slid) delete this.drag.slid.middle_now;
    this.drag = null;
    this.show();
    return true;
  }

  fit() { this.view = null; this.show(); }
  zoom(by) { this.view.k = Math.min(Math.max(this.view.k * by, 0.2), 20); this.view.own = true; this.show(); }

  reach() {
    const points = [...this.here(this.plan.rooms).flatMap((room) => room.outline),
      ...this.here(this.plan.stairs).flatMap(({ box: [x, y, w, d] }) => [[x, y], [x + w, y + d]]), ...(this.over?.corners() ?? [])];
    const [width, height] = this.size();
    if (!points.length) return { x: 120, y: 84, k: Math.min(width / 320, height / 240) };
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    const k = Math.min(width / (right - left + 2 * MARGIN), height / (high - low + 2 * MARGIN), 6);
    return { x: (left + right) / 2, y: (low + high) / 2, k };
  }

  show() {
    if (!this.view || !this.view.own || this.view.story !== this.page.story) this.view = { ...this.reach(), story: this.page.story };
    const held = document.activeElement?.closest?.("#plan [data-part]")?.dataset.part;
    const [width, height] = this.size();
    const rooms = this.here(this.plan.rooms).map((room) => this.shaped(room));
    const svg = draw("svg", { width, height, viewBox: `0 0 ${width} ${height}` }, grid(this, FOOT),
      ...rooms.map((room) => draw("path", { d: this.path(room.outline), class: `wall ${room.phase}`, "stroke-width": WALL * this.view.k })),
      ...rooms.map((room) => this.part(room, this.words(room), draw("path", { d: this.path(room.outline), class: `room ${room.phase}` }))),
      ...rooms.filter((room) => room.before && !isAsItIs()).map((room) => draw("path", { d: this.path(room.before), class: "was" })),
      ...this.things("boxes").map((one) => this.part(one, one.what, boxed(this, one))),
      ...this.things("stairs").map((one) => this.part(one, `stair ${one.id} ${one.end}`, ...stair(this, one))),
      ...goneFirst(this.here(this.plan.openings)).map((one) => this.part(one, `${one.kind} ${one.id} ${one.size}`, ...opening(this, one))),
      ...this.things("members").map((one) => this.part(one, `${one.role} ${one.id} ${one.size}`, ...member(this, one))),
      ...this.things("points").map((one) => this.part(one, `${one.kind} ${one.id}`, ...spot(this, one))),
      ...rooms.flatMap((room) => roomName(this, room)), ...marks(this, rooms), ...sizes(this, rooms), drafted(this));
    this.node.replaceChildren(svg, ...(this.over?.nodes() ?? []));
    if (held) this.node.querySelector(`[data-part="${CSS.escape(held)}"]`)?.focus();
    this.node.dataset.tool = this.page.tool;
  }

  /** What stands at a point, in a box or between ends, where the hand holds it just now. */
  things(kind) {
    const { shift } = this.drag ?? {};
    return this.here(this.plan[kind]).map((one) => {
      if (!shift || one.id !== this.drag.thing) return one;
      const by = ([x, y]) => [x + shift[0], y + shift[1]];
      return { ...one, ...(one.box && { box: [...by(one.box), ...one.box.slice(2)] }), ...(one.at && { at: by(one.at) }), ...(one.ends && { ends: one.ends.map(by) }) };
    });
  }

  shaped(room) { return this.drag?.room === room.id ? { ...room, outline: this.drag.outline } : room; }
  words(room) { return [room.name, room.use, room.phase].filter(Boolean).join(", "); }
  path(points) { return `M${points.map((point) => this.px(point).map((n) => n.toFixed(1)).join(" ")).join("L")}Z`; }

  part(one, words, ...drawn) {
    const counts = Object.entries(this.page.state.parts[one.id]?.counts ?? {});
    const said = counts.reduce((sum, [, count]) => sum + count, 0);
    const label = `${words}${said ? `, ${said} to do` : ""}`;
    return draw("g", { role: "button", tabindex: 0, "data-part": one.id, "aria-label": label, "aria-pressed": String(this.page.chosen === one.id),
      class: `part ${one.kind} ${one.phase}${this.page.chosen === one.id ? " chosen" : ""}` }, ...drawn);
  }

  /** The middle of what is free of a room, also while it is being drawn elsewhere. */
  moved(room) {
    if (this.drag?.room !== room.id) return room.middle;
    return this.middle(room.outline);
  }

  badgeRoom(room) { return Object.keys(this.page.state.parts[room.id]?.counts ?? {}).length && room.free[1] * this.view.k > 44 ? 26 : 0; }
  badgeDown(room) { return this.badgeRoom(room) ? Math.min(room.free[1] * this.view.k / 2 - 14, 34) : 0; }

  middle(outline) {
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
    return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  }

  /** Return the wall nearest to a point: its room, its number, the distance along it, and its length; null where none is near. */
  wallAt(point, reach) {
    let best = null;
    for (const room of this.here(this.plan.rooms)) {
      wallsOf(room).forEach(([[ax, ay], [bx, by]], wall) => {
        const length = Math.hypot(bx - ax, by - ay);
        if (!length) return;
        const along = Math.min(Math.max(((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length, 0), length);
        const foot = [ax + ((bx - ax) * along) / length, ay + ((by - ay) * along) / length];
        const chosen = room.id === this.page.chosen ? WALL / 2 : 0; // of the two sides of a wall, that of the room that is chosen
        const away = Math.hypot(point[0] - foot[0], point[1] - foot[1]) - chosen;
        if (away <= reach && (!best || away < best.away)) best = { room: room.id, wall, along, length, away, foot };
      });
    }
    return best;
  }

  roomAt(point) {
    return this.here(this.plan.rooms).find((room) => holds(room, point));
  }

  down(event) {
    if (event.button !== 0) return;
    const at = this.inches(event);
    const { tool } = this.page;
    const part = event.target.closest("[data-part]")?.dataset.part ?? "";
    this.drag = { from: at, at: [event.clientX, event.clientY], part, moved: false };
    if (tool === "select" && !this.page.readOnly && event.pointerType !== "touch") this.grasp(at, part, event.altKey);
    if (tool === "room") this.drag.room = null;
    this.node.setPointerCapture(event.pointerId);
  }

  grasp(at, part, alt) {
    const held = this.plan.rooms.find((one) => one.id === this.page.chosen && !(one.before && isAsItIs()));
    const near = held && this.wallAt(at, NEAR / this.view.k);
    const mine = near?.room === held?.id ? near : null;
    const room = mine || part === held?.id ? held : null; // a wall is held from its outside too
    if (room) Object.assign(this.drag, { grasped: room, wall: mine?.wall ?? null });
    if (mine && alt) this.drag.stretch = mine.along < mine.length / 2 ? [0, Math.round(mine.along)] : [Math.round(mine.along), mine.length];
    const slid = this.plan.openings.find((one) => one.id === part && one.id === this.page.chosen);
    if (slid) Object.assign(this.drag, { slid });
    const movable = [...this.plan.boxes, ...this.plan.stairs, ...this.plan.members, ...this.plan.points];
    if (part === this.page.chosen && movable.some((one) => one.id === part)) this.drag.thing = part;
  }

  move(event) {
    if (!this.drag) return;
    const { drag } = this;
    drag.moved ||= Math.hypot(event.clientX - drag.at[0], event.clientY - drag.at[1]) > 4;
    if (!drag.moved) return;
    const now = this.inches(event);
    const snap = event.shiftKey ? 1 : this.page.tool === "select" ? 1 : 6;
    const by = [0, 1].map((n) => Math.round((now[n] - drag.from[n]) / snap) * snap);
    if (this.page.tool === "beam") {
      drag.line = [drag.from, now].map((point) => point.map((n) => Math.round(n / snap) * snap));
      if (!event.shiftKey) drag.line[1] = squared(...drag.line);
    } else if (BY_BOX.includes(this.page.tool)) {
      const [a, b] = [drag.from, now].map((point) => point.map((n) => Math.round(n / snap) * snap));
      drag.box = [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])];
    } else if (drag.grasped) {
      Object.assign(drag, { room: drag.grasped.id, outline: this.pulled(drag, by) });
    } else if (drag.slid) {
      const along = drag.slid.along;
      const way = Math.round(by[0] * along[0] + by[1] * along[1]);
      drag.middle = [drag.slid.middle[0] + along[0] * way, drag.slid.middle[1] + along[1] * way];
      drag.slid.middle_now = drag.middle;
    } else if (drag.thing) {
      drag.shift = by;
    } else {
      this.view.x -= (event.clientX - (drag.last ?? drag.at)[0]) / this.view.k;
      this.view.y += (event.clientY - (drag.last ?? drag.at)[1]) / this.view.k;
      this.view.own = true;
    }
    drag.last = [event.clientX, event.clientY];
    this.show();
  }

  pulled(drag, by) {
    const { grasped, wall, stretch } = drag;
    if (wall === null) return grasped.outline.map(([x, y]) => [x + by[0], y + by[1]]);
    const out = outward(grasped, wall);
    drag.far = Math.round(by[0] * out[0] + by[1] * out[1]);
    return pushed(grasped, wall, drag.far, stretch);
  }

  async up(event) {
    const { drag } = this;
    this.drag = null;
    if (!drag) return;
    if (!drag.moved) await this.clicked(this.inches(event), drag.part);
    else if (drag.line) dragged(this, ...drag.line);
    else if (drag.box?.[2] && drag.box[3] && this.page.tool !== "room" && BY_BOX.includes(this.page.tool)) dragged(this, drag.from, this.inches(event), drag.box);
    else if (drag.shift) await this.hooks.act({ do: "move", part: drag.thing, by: drag.shift });
    else if (drag.box?.[2] && drag.box[3]) this.hooks.ask({ what: "room", at: drag.box.slice(0, 2), size: `${feet(drag.box[2])} x ${feet(drag.box[3])}` });
    else if (drag.outline) await this.hooks.act(shaping(this.page, drag, this.inches(event)));
    else if (drag.middle) { delete drag.slid.middle_now; await this.hooks.act({ do: "slide", part: drag.slid.id, middle: drag.middle }); }
    this.show();
  }

  async clicked(point, part) {
    const { tool } = this.page;
    if (tool === "select") return this.hooks.choose(part);
    if (tool === "underlay") return this.over?.pick(point);
    if (tool.endsWith("door") || tool === "window") {
      const wall = this.wallAt(point, 24);
      return wall && this.hooks.ask({ what: tool, ...wall, point: wall.foot });
    }
    return putHere(this, point, part);
  }

  /** Move the chosen room, or the chosen opening along its wall, by inches; return why it was refused, or an empty text. */
  async nudge(by, act) {
    const room = this.plan.rooms.find((one) => one.id === this.page.chosen);
    if (room) return act({ do: "move", part: room.id, by });
    const slid = this.plan.openings.find((one) => one.id === this.page.chosen);
    if (!slid) return this.page.chosen ? act({ do: "move", part: this.page.chosen, by }) : "";
    const way = by[0] * slid.along[0] + by[1] * slid.along[1];
    return act({ do: "slide", part: slid.id, middle: [slid.middle[0] + slid.along[0] * way, slid.middle[1] + slid.along[1] * way] });
  }
}

/** Return the end of a line from `start`, made level or plumb on the page where it is nearly so. */
function squared(start, end) {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]].map(Math.abs);
  if (dy <= dx / 6) return [end[0], start[1]];
  return dx <= dy / 6 ? [start[0], end[1]] : end;
}
