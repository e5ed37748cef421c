// How things stand on the plan: by the lines that drafting uses. Existing is hollow, new is solid, what goes is dashed.

import { draw } from "./make.js";

const line = (points, kind) => draw("path", { class: kind, d: `M${points.map((p) => p.map((n) => n.toFixed(1)).join(" ")).join("L")}` });

export function grid(plan, foot) {
  const step = foot * (plan.view.k * foot < 9 ? 5 : 1) * plan.view.k;
  const [width, height] = plan.size();
  const [x0, y0] = plan.px([0, 0]);
  let d = "";
  for (let x = ((x0 % step) + step) % step; x < width; x += step) d += `M${x.toFixed(1)} 0V${height}`;
  for (let y = ((y0 % step) + step) % step; y < height; y += step) d += `M0 ${y.toFixed(1)}H${width}`;
  return draw("path", { class: "grid", d });
}

/** The name of a room where nothing stands in it, with as many of its lines as there is place for. */
export function roomName(plan, room) {
  const [x, y] = plan.px(plan.moved(room));
  const [width, height] = room.free.map((one) => one * plan.view.k);
  const most = Math.floor(width / 7.2);
  const rows = Math.floor((height - plan.badgeRoom(room)) / 14);
  if (most < 3 || rows < 1) return [];
  const short = (text) => (text.length > most ? `${text.slice(0, Math.max(most - 1, 1))}…` : text);
  const more = [room.use !== room.name.toLowerCase() ? room.use : "", room.was && room.was !== room.use ? `was ${room.was}` : "", room.size];
  const said = [short(room.name), ...more.filter((text) => text && text.length <= most)].slice(0, Math.min(rows, 4));
  const top = y - (said.length - 1) * 7 - plan.badgeRoom(room) / 2 + 4;
  return said.map((text, n) => draw("text", { class: n ? "small" : "name", x, y: top + n * 14, "text-anchor": "middle" }, text));
}

function frame(plan, one) {
  const middle = one.middle_now ?? one.middle;
  const half = (one.width ?? 36) / 2;
  const to = (along, out) => plan.px([0, 1].map((n) => middle[n] + one.along[n] * along + one.out[n] * out));
  return { half, to };
}

export function opening(plan, one) {
  const { half, to } = frame(plan, one);
  const depth = one.thickness;
  const gap = draw("path", { class: "gap", d: `M${[to(-half, -0.5), to(half, -0.5), to(half, depth + 0.5), to(-half, depth + 0.5)].map((p) => p.join(" ")).join("L")}Z` });
  const jambs = [line([to(-half, 0), to(-half, depth)], "line"), line([to(half, 0), to(half, depth)], "line")];
  if (one.kind === "window") return [gap, ...jambs, line([to(-half, 0), to(half, 0)], "line"), line([to(-half, depth / 2), to(half, depth / 2)], "line thin"), line([to(-half, depth), to(half, depth)], "line")];
  if (one.operation === "vehicle") return [gap, ...jambs, line([to(-half, 0), to(half, 0)], "line dashed")];
  if (one.operation === "cased opening") return [gap, ...jambs];
  if (one.operation === "sliding" || one.operation === "pocket") return [gap, ...jambs, line([to(-half, depth * 0.35), to(half * 0.1, depth * 0.35)], "line"), line([to(-half * 0.1, depth * 0.65), to(half, depth * 0.65)], "line")];
  return [gap, ...jambs, ...leaf(plan, one, half, to, depth)];
}

function leaf(plan, one, half, to, depth) {
  const start = one.inward ? 0 : depth;
  const out = one.inward ? -2 * half : depth + 2 * half;
  const [hinge, tip, strike] = [to(-half, start), to(-half, out), to(half, start)];
  const turn = (tip[0] - hinge[0]) * (strike[1] - hinge[1]) - (tip[1] - hinge[1]) * (strike[0] - hinge[0]) > 0 ? 1 : 0;
  const radius = 2 * half * plan.view.k;
  return [line([hinge, tip], "line"), draw("path", { class: "line thin", d: `M${tip.join(" ")}A${radius} ${radius} 0 0 ${turn} ${strike.join(" ")}` })];
}

export function boxed(plan, { box: [x, y, w, d], what }) {
  const [left, top] = plan.px([x, y + d]);
  return draw("g", {}, draw("rect", { class: "box", x: left, y: top, width: w * plan.view.k, height: d * plan.view.k, rx: 3 }),
    w * plan.view.k > 44 && what ? draw("text", { class: "small", x: left + (w * plan.view.k) / 2, y: top + (d * plan.view.k) / 2 + 4, "text-anchor": "middle" }, what) : null);
}

export function stair(plan, { box: [x, y, w, d], climbs, risers }) {
  const [left, top] = plan.px([x, y + d]);
  const [width, height] = [w * plan.view.k, d * plan.view.k];
  const flat = climbs === "left" || climbs === "right";
  const steps = Math.min(Math.max((risers ?? 13) - 1, 1), 40);
  let treads = "";
  for (let n = 1; n < steps; n += 1) treads += flat ? `M${left + (width * n) / steps} ${top}v${height}` : `M${left} ${top + (height * n) / steps}h${width}`;
  return [draw("rect", { class: "box", x: left, y: top, width, height }), draw("path", { class: "line thin", d: treads }),
    draw("text", { class: "small", x: left + width / 2, y: top + height / 2 + 4, "text-anchor": "middle" }, { left: "← up", right: "up →", "up the page": "up ↑", "down the page": "up ↓" }[climbs] ?? "up")];
}

const LETTER = { alarm: "SA", light: "L", receptacle: "", exhaust: "F", panel: "P", appliance: "A", member: "" };

export function spot(plan, one) {
  const [x, y] = plan.px(one.at);
  if (one.kind === "member") return [draw("rect", { class: "spot", x: x - 4, y: y - 4, width: 8, height: 8 })];
  const legs = one.kind === "receptacle" ? [draw("path", { class: "line thin", d: `M${x - 9} ${y - 3}h18M${x - 9} ${y + 3}h18` })] : [];
  return [draw("circle", { class: "spot", cx: x, cy: y, r: 7 }), ...legs,
    LETTER[one.kind] ? draw("text", { class: "tiny", x, y: y + 3, "text-anchor": "middle" }, LETTER[one.kind]) : null].filter(Boolean);
}

/** A mark of its own shape for each group, with how many things are to do; drawn after the parts, so that none lies over it. */
export function badge(x, y, group, count) {
  const shape = {
    fail: () => draw("rect", { x: x - 10, y: y - 10, width: 20, height: 20 }),
    error: () => draw("rect", { x: x - 10, y: y - 10, width: 20, height: 20 }),
    "not-shown": () => draw("circle", { cx: x, cy: y, r: 10.5 }),
  }[group] ?? (() => draw("path", { d: `M${x} ${y - 13}L${x + 13} ${y}L${x} ${y + 13}L${x - 13} ${y}Z` }));
  return draw("g", { class: `badge ${group}`, "aria-hidden": "true" }, shape(), draw("text", { x, y: y + 4, "text-anchor": "middle" }, String(count)));
}
