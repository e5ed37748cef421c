// The picture of a plan behind the sketch: where it lies on the screen, and the points of it that are picked by hand or by keys.

import { draw, make } from "./make.js";

const NEAR = 10; // pixels within which a corner of a room counts as meant
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
export const PICKS = {
  scale: ["Click one end of a distance that you know.", "Click its other end."],
  level: ["Click a point of a line that runs level across the sheet.", "Click another point of it."],
  check: ["Click one end of another distance that the plan states.", "Click its other end."],
  point: ["Click a point of the picture, such as a corner of a room.", "Click where it belongs on the sketch."],
  move: ["Drag the picture, or move it with the arrow keys: 1 in, with Shift 1 ft, with Alt 1/4 in."],
};

export class Under {
  constructor(plan, page, hooks) {
    Object.assign(this, { plan, page, hooks, picking: "", points: [], shift: [0, 0], from: null, cross: null });
    this.image = make("img", { class: "under", alt: "", draggable: "false", hidden: true });
    this.image.addEventListener("load", () => this.checked());
    const { node } = plan;
    node.addEventListener("pointerdown", (event) => this.down(event), true);
    node.addEventListener("pointermove", (event) => this.move(event), true);
    node.addEventListener("pointerup", (event) => this.up(event), true);
    addEventListener("keydown", (event) => this.key(event), true);
  }

  get is() { return this.page.state?.underlay?.stories[this.page.story] ?? null; }
  get active() { return this.page.tool === "underlay" && this.is && !this.is.hidden; }

  /** Where a pixel of the picture is on the plan, in inches; and which pixel is at a point of the plan. */
  onPlan([u, v]) {
    const { x, y, angle, scale } = this.is;
    const [cos, sin] = [Math.cos(angle * Math.PI / 180), Math.sin(angle * Math.PI / 180)];
    return [x + this.shift[0] + scale * (u * cos + v * sin), y + this.shift[1] + scale * (u * sin - v * cos)];
  }

  offPlan([px, py]) {
    const { x, y, angle, scale } = this.is;
    const [cos, sin] = [Math.cos(angle * Math.PI / 180), Math.sin(angle * Math.PI / 180)];
    const [dx, dy] = [(px - x) / scale, (py - y) / scale];
    return [dx * cos + dy * sin, dx * sin - dy * cos];
  }

  corners() {
    if (!this.is || this.is.hidden) return [];
    const [width, height] = this.is.size;
    return [[0, 0], [width, 0], [0, height], [width, height]].map((pixel) => this.onPlan(pixel));
  }

  /** What lies over the plan: the picture, which darkens and never covers, and what is being picked. */
  nodes() {
    const { is, image, plan } = this;
    if (this.picking && !this.active) this.give();
    if (!is) return [];
    image.hidden = is.hidden;
    const source = `picture-${is.source}-${is.page}`;
    if (image.getAttribute("src") !== source) image.setAttribute("src", source);
    const [left, top] = plan.px(this.onPlan([0, 0]));
    const k = is.scale * plan.view.k;
    const [cos, sin] = [Math.cos(is.angle * Math.PI / 180) * k, Math.sin(is.angle * Math.PI / 180) * k];
    [image.style.width, image.style.height] = is.size.map((side) => `${side}px`);
    image.style.transform = `matrix(${cos},${-sin},${sin},${cos},${left},${top})`;
    image.style.opacity = (this.seen ?? is.seen) / 100;
    return [image, this.marks()];
  }

  marks() {
    const [width, height] = this.plan.size();
    const at = this.active ? this.points.map(({ plan }) => this.plan.px(plan)) : [];
    const sign = ([x, y], kind) => draw("path", { class: kind, d: `M${x - 9} ${y}H${x + 9}M${x} ${y - 9}V${y + 9}` });
    const edge = this.page.tool === "underlay" && this.active ? this.corners().map((corner) => this.plan.px(corner).map((n) => n.toFixed(1)).join(" ")) : null;
    return draw("svg", { class: "picks", width, height, "aria-hidden": "true" }, edge ? draw("path", { class: "sheet-edge", d: `M${edge[0]}L${edge[1]}L${edge[3]}L${edge[2]}Z` }) : "", at.length === 2 ? draw("path", { class: "pick", d: `M${at[0]}L${at[1]}` }) : "",
      ...at.map((one) => sign(one, "pick")), this.picked && this.cross ? sign(this.cross, "pick cross") : "");
  }

  /** A picture that the browser turns otherwise than the board read it would lie askew without a word. */
  checked() {
    const { naturalWidth, naturalHeight } = this.image;
    const [width, height] = this.is?.size ?? [1, 1];
    if (Math.abs(naturalWidth / naturalHeight / (width / height) - 1) < 0.01) return;
    this.image.classList.add("askew");
    this.hooks.tell("This picture says of itself that it is turned, in a way that the board does not read. Save it as PNG, and send that.");
  }

  get picked() { return this.active && this.picking && this.picking !== "move" && this.points.length < 2; }

  start(picking) {
    Object.assign(this, { picking: this.picking === picking ? "" : picking, points: [], shift: [0, 0] });
    this.cross = this.plan.size().map((side) => side / 2);
    if (this.picking) {
      this.plan.node.tabIndex = 0;
      this.plan.node.focus();
      this.say();
      this.page.tab = "plan";
    } else this.give();
    this.hooks.show();
  }

  give() {
    Object.assign(this, { picking: "", points: [] });
    this.page.hint = "";
    this.plan.node.tabIndex = -1;
  }

  end() { if (this.picking) this.start(this.picking); }

  say() {
    const told = PICKS[this.picking]?.[this.points.length];
    this.page.hint = told ?? "";
    if (told) this.hooks.tell(`${told} ${this.picking === "move" ? "" : "By keys: the arrows move the cross, Enter sets the point."}`);
  }

  pick(point) {
    if (!this.picked) return;
    const meant = this.picking === "point" && this.points.length ? this.corner(point) : point;
    this.points.push({ plan: meant, pixel: this.offPlan(meant) });
    this.say();
    if (this.points.length === 2) this.hooks.picked(this.picking, this.points);
    this.hooks.show();
  }

  corner(point) {
    const corners = this.plan.here(this.plan.plan.rooms).flatMap((room) => room.outline);
    const far = (one) => Math.hypot(one[0] - point[0], one[1] - point[1]) * this.plan.view.k;
    return corners.filter((one) => far(one) < NEAR).sort((a, b) => far(a) - far(b))[0] ?? point;
  }

  down(event) {
    if (!this.active || this.picking !== "move" || event.button !== 0) return;
    event.stopPropagation();
    this.from = this.plan.inches(event);
    this.plan.node.setPointerCapture(event.pointerId);
  }

  move(event) {
    if (!this.from) return;
    event.stopPropagation();
    const now = this.plan.inches(event);
    this.shift = [now[0] - this.from[0], now[1] - this.from[1]];
    this.plan.show();
  }

  async up(event) {
    if (!this.from) return;
    event.stopPropagation();
    const by = this.shift;
    Object.assign(this, { from: null });
    if (by[0] || by[1]) await this.hooks.place({ do: "move", by });
    this.shift = [0, 0];
    this.plan.show();
  }

  async key(event) {
    if (!this.picking || !this.active || event.ctrlKey || event.metaKey) return;
    if (event.key === "Escape") {
      event.stopImmediatePropagation();
      this.end();
      this.hooks.panel(true);
      return;
    }
    if (!event.target.closest?.("#plan")) return;
    const way = STEPS[event.key];
    const sets = (event.key === "Enter" || event.key === " ") && this.picked;
    if (!way && !sets) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    if (sets) return this.pick(this.plan.inchesAt(this.cross));
    if (this.picking === "move") return void await this.hooks.place({ do: "move", by: way.map((n) => n * (event.altKey ? 0.25 : event.shiftKey ? 12 : 1)) });
    const step = event.altKey ? 1 : event.shiftKey ? 50 : 10;
    const [width, height] = this.plan.size();
    this.cross = [Math.min(Math.max(this.cross[0] + way[0] * step, 0), width), Math.min(Math.max(this.cross[1] - way[1] * step, 0), height)];
    this.plan.show();
  }
}
