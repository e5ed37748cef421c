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
  if (most < 3 || rows < 1 || (most < 7 && room.name.length > most)) return []; // a letter and three dots tell nothing
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

export function boxed(plan, { box: [x, y, w, d], what, kind }) {
  const [left, top] = plan.px([x, y + d]);
  if (kind === "framed opening") return cutOut(left, top, w * plan.view.k, d * plan.view.k);
  return draw("g", {}, draw("rect", { class: "box", x: left, y: top, width: w * plan.view.k, height: d * plan.view.k, rx: 3 }),
    w * plan.view.k > 44 && what ? draw("text", { class: "small", x: left + (w * plan.view.k) / 2, y: top + (d * plan.view.k) / 2 + 4, "text-anchor": "middle" }, what) : null);
}

/** What is cut out of a floor, as drafters draw it: dashed, with a cross. */
function cutOut(left, top, wide, high) {
  const cross = `M${left} ${top}l${wide} ${high}M${left} ${top + high}l${wide} ${-high}`;
  return draw("g", {}, draw("rect", { class: "box cut-out", x: left, y: top, width: wide, height: high }), draw("path", { class: "cut-out", d: cross }));
}

const CLIMB = { left: [-1, 0], right: [1, 0], "up the page": [0, 1], "down the page": [0, -1] };
const CUT = 0.6; // of the way up, where the plan of the lower story cuts a stair

/** A stair by its treads, with an arrow from the story that is shown: UP from its foot, DN from its head. */
export function stair(plan, one) {
  const [x, y, w, d] = one.box;
  const corners = [[x, y], [x + w, y], [x + w, y + d], [x, y + d]].map((p) => plan.px(p));
  const drawn = [draw("path", { class: "box", d: `M${corners.map((p) => p.join(" ")).join("L")}Z` })];
  const way = CLIMB[one.climbs];
  if (!way) return [...drawn, draw("text", { class: "small", x: (corners[0][0] + corners[1][0]) / 2, y: (corners[0][1] + corners[2][1]) / 2 + 4, "text-anchor": "middle" }, one.end)];
  const run = way[0] ? w : d;
  const [along, across] = [way, [way[1], way[0]]];
  const foot = [way[0] < 0 ? x + w : x, way[1] < 0 ? y + d : y];
  const wide = way[0] ? d : w;
  const low = [foot[0] + (across[0] < 0 ? wide : 0), foot[1] + (across[1] < 0 ? wide : 0)];
  const at = (far, over) => plan.px([low[0] + along[0] * far + across[0] * over, low[1] + along[1] * far + across[1] * over]);
  const step = one.tread ?? run / Math.min(Math.max((one.risers ?? 13) - 1, 1), 40);
  for (let far = step; far < run - 0.5; far += step) {
    drawn.push(line([at(far, 0), at(far, wide)], `line thin${one.end === "UP" && far > run * CUT ? " dashed" : ""}`));
  }
  if (one.end === "UP") drawn.push(line([at(run * CUT - 4, 0), at(run * CUT + 1, wide * 0.45), at(run * CUT - 3, wide * 0.55), at(run * CUT + 4, wide)], "line"));
  return [...drawn, ...arrow(one.end === "UP" ? [at(4, wide / 2), at(run * CUT - 8, wide / 2)] : [at(run - 4, wide / 2), at(8, wide / 2)], one.end)];
}

function arrow([start, end], label) {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const long = Math.hypot(dx, dy) || 1;
  const [ux, uy] = [dx / long, dy / long];
  const head = [1, -1].map((side) => [end[0] - 8 * ux + 4 * side * uy, end[1] - 8 * uy - 4 * side * ux]);
  return [line([start, end], "line"), line([head[0], end, head[1]], "line"),
    draw("circle", { class: "dot", cx: start[0], cy: start[1], r: 2.5 }),
    draw("text", { class: "small", x: start[0] + ux * 14 - uy * 11, y: start[1] + uy * 14 + ux * 11 + 4, "text-anchor": "middle" }, label)];
}

/** A post as a square, a beam or header as the heavy dashed line of what lies above. */
export function member(plan, one) {
  const points = one.ends.map((end) => plan.px(end));
  if (one.role === "post") {
    const [[x, y]] = points;
    const half = Math.max(5.5 * plan.view.k / 2, 4);
    return [draw("rect", { class: "spot", x: x - half, y: y - half, width: 2 * half, height: 2 * half }),
      line([[x - half, y - half], [x + half, y + half]], "line thin"), line([[x + half, y - half], [x - half, y + half]], "line thin")];
  }
  return [line(points, "reach"), line(points, "member"), memberName(points, [one.id, one.size].filter(Boolean).join(" "))].filter(Boolean);
}

/** The name of a member along it, off its middle where its mark lies; none where it would be longer than the member. */
function memberName([from, to], name) {
  const [start, end] = from[0] < to[0] || (from[0] === to[0] && from[1] > to[1]) ? [from, to] : [to, from];
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const [long, wide] = [Math.hypot(dx, dy), name.length * 5.5];
  if (long < wide + 8) return null;
  const along = long > 2 * wide + 36 ? (wide / 2 + 8) / long : 0.5;
  const [x, y] = [start[0] + dx * along, start[1] + dy * along];
  return draw("text", { class: "tiny", x, y: y - 6, transform: `rotate(${((Math.atan2(dy, dx) * 180) / Math.PI).toFixed(1)} ${x.toFixed(1)} ${y.toFixed(1)})`, "text-anchor": "middle" }, name);
}

const LETTER = { alarm: "SA", light: "L", receptacle: "", exhaust: "F", panel: "P", appliance: "A" };

export function spot(plan, one) {
  const [x, y] = plan.px(one.at);
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
