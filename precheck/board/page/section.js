// The section through a room or a stair, beside the plan: its lines, and its heights, which are typed where they are drawn.

import { answerTo, by, draw, make } from "./make.js";
import { named, select } from "./spot.js";
import * as net from "./net.js";

const EDGE = 70; // pixels around what is drawn, for the levels at its sides
const [TOUCH, HIGH] = [44, 36]; // pixels that a finger needs, and that two lines of lettering take
const SHAPES = [["flat", "flat"], ["one slope", "slopes up across the room"], ["two slopes", "slopes up to the middle"], ["tray", "tray, a lower border all round"]];
const WIDE = 520; // pixels of a section from which on each height is lettered with what it is
let turn = 0;
let told = "";

/** Whether the section is shown in place of the plan. */
export const inSection = (page) => page.view === "section";

/** What a section can be drawn through: what is chosen, where it is a room, a stair or in a room. */
const through = (page) => {
  if (page.picked?.while === page.chosen && page.state.parts[page.picked.part]) return page.picked.part;
  const part = page.state.parts[page.chosen];
  const of = part && (["space", "stair", "door", "window"].includes(part.kind) || part.room) ? page.chosen : page.cut;
  return page.state.parts[of] ? of : page.state.plan.stairs.find((one) => one.story === page.story)?.id
    ?? Object.keys(page.state.parts).find((id) => page.state.parts[id].kind === "stair") ?? page.state.plan.rooms.find((one) => one.story === page.story)?.id ?? "";
};

export async function showSection(node, page, hooks) {
  node.hidden = !inSection(page);
  by("plan").hidden = inSection(page);
  if (node.hidden) return;
  const part = through(page);
  page.cut = part;
  const mine = ++turn;
  const key = `${part} ${page.state.revision} ${node.clientWidth}`;
  if (key === told && node.childElementCount) return;
  const found = part ? await net.section(part) : { strokes: [], heights: [], notes: [] };
  if (mine !== turn) return;
  told = key;
  const typing = node.contains(document.activeElement) ? document.activeElement.dataset.height : null;
  node.replaceChildren(...content(node, found, page, hooks));
  if (typing) node.querySelector(`[data-height="${CSS.escape(typing)}"]`)?.focus();
}

function content(node, found, page, hooks) {
  if (!found.strokes.length) return [make("p", { class: "call" }, "Choose a room or a stair on the plan, and its section is drawn here.")];
  const refused = make("p", { class: "refused", role: "alert" });
  const view = fitted(node, found);
  const svg = draw("svg", { width: view.width, height: view.height, viewBox: `0 0 ${view.width} ${view.height}`, class: "section" },
    ...found.strokes.flatMap((stroke) => stroked(view, stroke)),
    ...placed(view, found.heights).map((one) => height(view, one, found, hooks, refused, page)));
  return [make("h2", {}, found.title), picker(node, found, page, hooks), svg, refused, listed(found, page, hooks, view.wide), ...(found.room ? [shapes(found, page, hooks)] : []),
    ...found.notes.map((note) => make("p", { class: "soft" }, note))];
}

/** What the section is cut through, to choose. */
function picker(node, found, page, hooks) {
  const listed = Object.entries(page.state.parts).filter(([, one]) => one.kind === "stair" || one.kind === "space");
  const choice = select(listed.map(([id, one]) => [id, one.label]), { onchange: () => {
    page.picked = { part: choice.value, while: page.chosen };
    showSection(node, page, hooks);
  } });
  choice.value = found.part;
  return named("Through", choice);
}

function fitted(node, found) {
  const points = [...found.strokes.flatMap((one) => one.points), ...found.heights.flatMap((one) => one.line)];
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const width = Math.max(node.clientWidth - 4, 280);
  const most = Math.max(window.innerHeight * 0.55, 240);
  const k = Math.min((width - 2 * EDGE) / (right - left || 1), (most - 70) / (high - low || 1), 6);
  const height = (high - low) * k + 70;
  const shift = (width - (right - left) * k) / 2;
  return { width, height, k, wide: width >= WIDE, px: ([x, y]) => [(x - left) * k + shift, height - 35 - (y - low) * k] };
}

const along = (points) => `M${points.map((point) => point.map((n) => n.toFixed(1)).join(" ")).join("L")}`;

function stroked(view, { kind, points, text }) {
  const at = points.map((point) => view.px(point));
  if (kind === "layer" || kind === "base") {
    const [[x1, y1], [x2, y2]] = at;
    return [draw("rect", { class: kind, x: x1, y: y1, width: x2 - x1, height: Math.max(y2 - y1, 2) }),
      draw("text", { class: "small", x: (x1 + x2) / 2, y: kind === "base" ? y2 - 4 : (y1 + y2) / 2 + 4, "text-anchor": "middle" }, y2 - y1 > 11 ? text : "")];
  }
  const shut = kind.startsWith("window") ? "Z" : "";
  return [draw("path", { class: `cut ${kind}`, d: along(at) + shut }),
    text && kind !== "drop" ? draw("text", { class: "small", x: (at[0][0] + at.at(-1)[0]) / 2, y: Math.min(...at.map(([, y]) => y)) - 5, "text-anchor": "middle" }, text) : null].filter(Boolean);
}

/** Give each height a place for its text that no other one takes: along its own line, or beside it. */
function placed(view, heights) {
  const taken = [];
  return heights.map((one) => {
    const [from, to] = one.line.map((point) => view.px(point));
    const text = `${one.value || one.worked || "?"}`;
    const half = Math.max(text.length * 4.2 + 8, view.wide ? one.label.length * 2.9 + 6 : 0, TOUCH / 2);
    const clear = (x, y) => x - half > 0 && x + half < view.width && y > HIGH / 2 && y < view.height - HIGH / 2 && !taken.some(([tx, ty, th]) => Math.abs(tx - x) < th + half && Math.abs(ty - y) < HIGH + 2);
    const middle = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    const level = from[0] === to[0] && from[1] === to[1] ? [[from[0], from[1] - HIGH / 2 - 12], [view.width - half - 2, from[1] - HIGH / 2 - 12]] : [];
    const spots = [...level, ...[0.5, 0.35, 0.65, 0.2, 0.8].map((share) => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]),
      ...[[middle[0] + half + 6, middle[1]], [middle[0] - half - 6, middle[1]], [middle[0], middle[1] - HIGH - 2], [middle[0], middle[1] + HIGH + 2],
        [view.width - half - 2, middle[1]], [half + 2, middle[1]], [view.width - half - 2, middle[1] - HIGH - 2]]];
    const spot = spots.find(([x, y]) => clear(x, y)) ?? [Math.min(Math.max(middle[0], half), view.width - half), middle[1]];
    taken.push([...spot, half]);
    return { ...one, from, to, spot, half, text };
  });
}

function height(view, one, found, hooks, refused, page) {
  const { from, to, spot: [x, y], half, text } = one;
  const level = from[0] === to[0] && from[1] === to[1];
  const upright = Math.abs(from[0] - to[0]) < 1;
  const tick = upright ? `M${from[0] - 5} ${from[1]}h10M${to[0] - 5} ${to[1]}h10` : `M${from[0]} ${from[1] - 5}v10M${to[0]} ${to[1] - 5}v10`;
  const edit = () => typed(view, one, found, hooks, refused, page);
  return draw("g", { role: "button", tabindex: 0, "data-height": one.key, class: `height ${one.state} ${one.value ? "" : "open"}`,
    "aria-label": `${text === "?" ? "not shown:" : text} ${one.label}${one.value || !one.worked ? "" : ", worked out"}${one.state ? ", something to do" : ""}. Enter to type it.`,
    onclick: edit, onkeydown: (event) => { if (event.key === "Enter" || event.key === " ") { event.preventDefault(); edit(); } } },
    level ? draw("path", { class: "dimension", d: `M${from[0] - 7} ${from[1] - 10}h14l-7 10Z` }) : draw("path", { class: "dimension", d: `${along([from, to])}${tick}` }),
    draw("rect", { class: "touch", x: x - half, y: y - HIGH / 2, width: 2 * half, height: HIGH, rx: 4 }),
    draw("text", { class: one.value ? "dimension" : "dimension worked", x, y: view.wide ? y - 2 : y + 5, "text-anchor": "middle" }, text), " ",
    view.wide ? draw("text", { class: "what", x, y: y + 12, "text-anchor": "middle" }, one.label) : null);
}

/** A height becomes a field where it stands; Enter takes it, Escape gives up. */
function typed(view, one, found, hooks, refused, page) {
  const node = by("section");
  node.querySelector(".here")?.remove();
  const wide = Math.max(112, 2 * one.half);
  const input = make("input", { class: "here", value: one.value || one.worked, "aria-label": one.label, autocomplete: "off", "data-height": one.key });
  const svg = node.querySelector("svg");
  input.style.setProperty("left", `${Math.min(Math.max(svg.offsetLeft + one.spot[0] - wide / 2, 2), view.width - wide)}px`);
  input.style.setProperty("top", `${(svg.offsetTop ?? 0) + one.spot[1] - 18}px`);
  const back = () => { input.remove(); node.querySelector(`g[data-height="${CSS.escape(one.key)}"]`)?.focus(); };
  input.addEventListener("keydown", async (event) => {
    event.stopPropagation();
    if (event.key === "Escape") back();
    if (event.key !== "Enter") return;
    if (input.value === one.value) return back();
    const why = await hooks.act({ do: "height", part: found.part, key: one.key, value: input.value });
    answerTo(page, why, refused, [input]);
    if (!why) back();
  });
  input.addEventListener("blur", () => setTimeout(() => { if (!page.meant?.length && document.activeElement !== input) input.remove(); }, 200));
  svg.after(input);
  input.focus();
  input.select();
}

/** All heights as fields with their names: for a small page, and for whoever would rather fill in a list. */
function listed(found, page, hooks, wide) {
  return make("details", { class: "shapes", open: !wide }, make("summary", {}, "All heights, as a list"), ...found.heights.map((one) => {
    const refused = make("p", { class: "refused", role: "alert" });
    const input = make("input", { value: one.value, placeholder: one.worked ? `works out to ${one.worked}` : "", autocomplete: "off", "data-height": `list ${one.key}` });
    return make("form", { class: "value", onsubmit: async (event) => {
      event.preventDefault();
      if (input.value !== one.value) answerTo(page, await hooks.act({ do: "height", part: found.part, key: one.key, value: input.value }), refused, [input]);
    } }, named(one.label, input), refused);
  }));
}

/** The shape of the ceiling, as a form: flat, sloped or with a border, with the heights that it takes. */
function shapes(found, page, hooks) {
  const shape = select(SHAPES);
  const [low, high, border] = ["8 ft", "9 ft", "18 in"].map((placeholder) => make("input", { placeholder, autocomplete: "off" }));
  const across = select([["width", "along its width"], ["depth", "along its depth"]]);
  const lines = [named("The ceiling is", shape), named("Height at its low side", low), named("Height at its high side", high), named("Width of the border", border), named("It slopes", across)];
  const asked = () => {
    const flat = shape.value === "flat";
    lines[1].firstChild.textContent = flat ? "Height" : shape.value === "tray" ? "Height under the border" : "Height at its low side";
    lines[2].firstChild.textContent = shape.value === "tray" ? "Height in the middle" : "Height at its high side";
    lines[2].hidden = flat;
    lines[3].hidden = shape.value !== "tray";
    lines[4].hidden = !shape.value.includes("slope");
  };
  shape.addEventListener("change", asked);
  asked();
  const refused = make("p", { class: "refused", role: "alert" });
  return make("details", { class: "shapes" }, make("summary", {}, "Another shape of ceiling"), make("form", { class: "value", onsubmit: async (event) => {
    event.preventDefault();
    answerTo(page, await hooks.act({ do: "ceiling", part: found.part, shape: shape.value, low: low.value, high: high.value, border: border.value, across: across.value }), refused, [low, high, border]);
  } }, ...lines, make("button", { type: "submit", class: "main" }, "Draw it"), refused));
}
