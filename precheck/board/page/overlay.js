// What lies over the plan: the marks of the findings, the dimensions of what is chosen, and what the hand is drawing.

import { draw, feet } from "./make.js";
import { badge } from "./symbols.js";
import { outward, wallsNamed, wallsOf } from "./walls.js";

/** The next place to the right of a point where no mark lies yet; it is taken then. */
function clear([x, y], taken) {
  while (taken.some(([a, b]) => Math.hypot(a - x, b - y) < 23)) x += 24;
  taken.push([x, y]);
  return [x, y];
}

/** The marks of the findings, one for each part, at the middle of it or beside its wall. */
export function marks(plan, rooms) {
  const at = [...rooms.map((room) => [room, plan.moved(room), plan.badgeDown(room)]), ...plan.here(plan.plan.openings).map((one) => [one, one.middle, 0]),
    ...plan.here(plan.plan.stairs).map((one) => [one, [one.box[0] + one.box[2], one.box[1] + one.box[3]], 0])];
  const taken = [];
  return at.flatMap(([one, point, down]) => {
    const counts = plan.page.state.parts[one.id]?.counts ?? {};
    const worst = ["error", "fail", "not-shown", "ask", "warn"].find((key) => counts[key]);
    if (!worst) return [];
    const [x, y] = plan.px(point);
    const [dx, dy] = one.out ? [one.out[0] * 18, -one.out[1] * 18] : [0, down];
    return [badge(...clear([x + dx, y + dy], taken), worst, Object.values(counts).reduce((sum, count) => sum + count, 0))];
  });
}

/** The dimensions of the room that is chosen: over all of it, or of each wall of an outline. */
export function sizes(plan, rooms) {
  const room = rooms.find((one) => one.id === plan.page.chosen);
  if (!room) return [];
  if (room.outline.length > 4) return wallsNamed(room).map((wall, n) => lengthOf(plan, room, wall, n));
  const [xs, ys] = [room.outline.map(([x]) => x), room.outline.map(([, y]) => y)];
  const [left, top] = plan.px([Math.min(...xs), Math.max(...ys)]);
  const [right, bottom] = plan.px([Math.max(...xs), Math.min(...ys)]);
  const across = feet(Math.max(...xs) - Math.min(...xs));
  const up = feet(Math.max(...ys) - Math.min(...ys));
  return [draw("path", { class: "dimension", d: `M${left} ${top - 22}H${right}M${left} ${top - 27}v10M${right} ${top - 27}v10M${right + 22} ${top}V${bottom}M${right + 17} ${top}h10M${right + 17} ${bottom}h10` }),
    draw("text", { class: "dimension", x: (left + right) / 2, y: top - 27, "text-anchor": "middle" }, across),
    draw("text", { class: "dimension", x: right + 28, y: (top + bottom) / 2 + 4 }, up)];
}

/** The length of one wall of an outline, on its side toward the room, where the walls of a notch keep clear of each other. */
function lengthOf(plan, room, wall, n) {
  const [a, b] = wallsOf(room)[n].map((point) => plan.px(point));
  const [dx, dy] = outward(room, n);
  const upright = Math.abs(dx) > 0.7;
  return draw("text", { class: "dimension", x: (a[0] + b[0]) / 2 - dx * 8, y: (a[1] + b[1]) / 2 + dy * 14 + 4, "text-anchor": upright ? (dx > 0 ? "end" : "start") : "middle" }, feet(wall.length));
}

/** What is being drawn, before it is let go. */
export function drafted(plan) {
  const { draft } = plan.page;
  if (plan.drag?.box) {
    const [x, y, w, d] = plan.drag.box;
    const at = plan.px([x, y + d]);
    return draw("g", { class: "draft" }, draw("rect", { x: at[0], y: at[1], width: w * plan.view.k, height: d * plan.view.k }),
      draw("text", { x: at[0] + 6, y: at[1] + 18 }, `${feet(w)} x ${feet(d)}`));
  }
  if (plan.drag?.line) {
    const [from, to] = plan.drag.line.map((point) => plan.px(point));
    return draw("g", { class: "draft" }, draw("path", { d: `M${from}L${to}` }), draw("text", { x: to[0] + 8, y: to[1] - 8 }, feet(Math.hypot(plan.drag.line[1][0] - plan.drag.line[0][0], plan.drag.line[1][1] - plan.drag.line[0][1]))));
  }
  if (draft?.point) {
    const [x, y] = plan.px(draft.point);
    return draw("circle", { class: "draft", cx: x, cy: y, r: 7 });
  }
  return draw("g", {});
}
