// The shape of a room: walls by their lengths, jogs, a room divided and two joined, typed or pulled; and what stands today.

import { answerTo, feet, make, reads } from "./make.js";
import { named, select } from "./spot.js";
import { wallsNamed } from "./walls.js";

const phase = () => document.querySelector("[name=phase]:checked")?.value;
export const isAsItIs = () => phase() === "existing";

/** What is there to be seen: as it is, without what is new, and rooms as they were; else all of it, what goes in dashed lines. */
export function standing(list) {
  if (!isAsItIs()) return list;
  return list.filter((one) => one.phase !== "new").map((one) => ({ ...one, phase: "existing",
    ...(one.before && { outline: one.before, before: null, is_before: true }), ...(one.was && { use: one.was, was: "" }) }));
}

/** Whether a change of a room's walls is work, so that how they stood stays in the file. */
export const works = (page, room) => !isAsItIs() && (room.phase === "existing" || Boolean(page.moving?.has(room.id)));

/** What a pull at a room asks for: the room moved, a wall moved, or the stretch of a wall that was split off. */
export function shaping(page, drag, now) {
  const room = drag.grasped;
  if (drag.wall === null) return { do: "move", part: room.id, by: [0, 1].map((n) => Math.round(now[n] - drag.from[n])) };
  const work = works(page, room);
  if (!drag.stretch) return { do: "wall", part: room.id, wall: drag.wall, by: drag.far, work };
  const [from, to] = drag.stretch;
  return { do: "jog", part: room.id, wall: drag.wall, start: `${from} in`, length: `${to - from} in`, deep: `${Math.abs(drag.far)} in`, inward: drag.far < 0, work };
}

function form(page, title, inputs, lines, send, button) {
  const refused = make("p", { class: "refused", role: "alert" });
  return make("details", {}, make("summary", {}, title), make("form", { class: "value", onsubmit: async (event) => {
    event.preventDefault();
    answerTo(page, await send(), refused, inputs);
  } }, ...lines, make("button", { type: "submit" }, button), refused));
}

const typed = (placeholder, value) => make("input", { placeholder, value: value ?? "", autocomplete: "off" });

/** The forms of the room that is chosen; a room as it was before the work is changed in the file. */
export function shapeForms(page, hooks, room) {
  if (room.before && isAsItIs()) return [make("p", { class: "soft" }, "Shown as it was before the work. Switch to The work to change its walls.")];
  const walls = wallsNamed(room);
  const act = (what) => hooks.act({ part: room.id, work: works(page, room), ...what });
  return [...(room.phase === "altered" && !isAsItIs() && !room.before ? [moving(page, room)] : []), lengths(page, act, walls), jog(page, act, walls), divide(page, act, room), ...join(page, act, room)];
}

function moving(page, room) {
  page.moving ??= new Set();
  return make("label", { class: "two" }, make("span", {}, "The work moves its walls: what is drawn now is how it stands"), make("input", { type: "checkbox", checked: page.moving.has(room.id),
    onchange: (event) => page.moving[event.target.checked ? "add" : "delete"](room.id) }));
}

function lengths(page, act, walls) {
  const refused = make("p", { class: "refused", role: "alert" });
  const field = (wall, n) => {
    const input = reads(typed("", feet(wall.length)), "wall");
    return make("form", { class: "value", onsubmit: async (event) => {
      event.preventDefault();
      if (input.value !== feet(wall.length)) answerTo(page, await act({ do: "wall", wall: n, length: input.value }), refused, [input]);
    } }, named(`${n + 1}: ${wall.side} wall, to its ${wall.corners[1]} corner`, input));
  };
  return make("details", {}, make("summary", {}, `Its ${walls.length} walls by their lengths`), make("p", { class: "soft" }, "A wall gets longer or shorter at the corner that is named."), ...walls.map(field), refused);
}

function jog(page, act, walls) {
  const wall = select(walls.map((one, n) => [String(n), `${n + 1}: ${one.side} wall, ${feet(one.length)}`]));
  const start = typed("0 in");
  const length = typed("4 ft");
  const deep = typed("2 ft");
  const way = select([["out", "out of the room"], ["in", "into the room"]]);
  const from = make("span", {});
  const told = () => { from.textContent = `From its ${walls[wall.value].corners[0]} corner`; };
  wall.addEventListener("change", told);
  told();
  return form(page, "A jog: part of a wall moved", [start, length, deep], [named("Wall", wall), make("label", {}, from, start), named("So long", length), make("span", { class: "two" }, named("So deep", deep), named("Which way", way))],
    () => act({ do: "jog", wall: Number(wall.value), start: start.value, length: length.value, deep: deep.value, inward: way.value === "in" }), "Move it");
}

function divide(page, act, room) {
  const from = select([["west", "its west wall"], ["south", "its south wall"]]);
  const distance = reads(typed("8 ft"), "wall");
  const name = typed("Closet");
  const use = select(["", "bedroom", "bathroom", "toilet room", "closet", "hall", "laundry", "storage", "utility", "office", "kitchen", "living room", "garage"]);
  return form(page, "Divide it by a wall", [distance], [make("span", { class: "two" }, named("What stays, from", from), named("So far", distance)), named("Name of the other part", name), named("Its use", use)],
    () => act({ do: "divide", from_side: from.value, distance: distance.value, name: name.value, use: use.value, phase: isAsItIs() ? "existing" : "new" }), `Divide ${room.name}`);
}

function join(page, act, room) {
  const others = page.state.plan.rooms.filter((one) => one.story === room.story && one.id !== room.id && one.phase !== "removed");
  if (!others.length) return [];
  const other = select(others.map((one) => [one.id, one.name]));
  return [form(page, "Join it with the room beside it", [], [named("Which room", other)], () => act({ do: "join", other: other.value }), "Make them one")];
}
