// What is being put on the plan, as a form: everything that a hand can draw can be typed here.

import { answerTo, feet, make, reads } from "./make.js";
import { named, select } from "./spot.js";
import { hole } from "./hole.js";
import { member, stair, thing } from "./tray.js";
import { wallsNamed } from "./walls.js";

export const USES = ["bedroom", "living room", "dining room", "kitchen", "family room", "office", "bathroom", "toilet room", "laundry", "hall", "closet",
  "storage", "utility", "workshop", "garage", "carport", "attic", "crawl space", "porch", "deck", "sunroom"];
const DOORS = ["side-hinged", "sliding", "folding", "pocket", "vehicle", "hatch", "cased opening"];
const WINDOWS = ["casement", "double hung", "single hung", "slider", "awning", "hopper", "fixed"];
const phase = () => document.querySelector("[name=phase]:checked").value;

export function drafting(node, page, hooks) {
  const shown = { room, door: opening, "vehicle door": opening, window: opening, stair, hole, post: member, beam: member, story }[page.draft.what] ?? thing;
  node.replaceChildren(...shown(page, hooks));
  node.querySelector("[data-first]")?.focus();
}

const typed = (value, placeholder, more) => make("input", { value: value ?? "", placeholder, autocomplete: "off", ...more });

function form(page, title, inputs, lines, send, button = "Put it on the plan") {
  const refused = make("p", { class: "refused", role: "alert" });
  let sent = false;
  return [make("h2", {}, title), make("form", { class: "value", onsubmit: async (event) => {
    event.preventDefault();
    if (sent) return; // who presses Enter twice draws one
    sent = true;
    const told = await send();
    sent = !told;
    answerTo(page, told, refused, inputs);
  } }, ...lines, make("button", { type: "submit", class: "main" }, button), refused)];
}

function room(page, hooks) {
  const { draft } = page;
  const size = reads(typed(draft.size, "11'-4\" x 14'-0\"", { "data-first": true }), "room size");
  const name = typed("", "Bedroom 2");
  const use = select(["", ...USES]);
  const was = select(["", ...USES]);
  const others = page.state.plan.rooms.filter((one) => one.story === page.story);
  const beside = make("select", {}, make("option", { value: "" }, draft.at ? "where it was drawn" : others.length ? "to the right of all" : "as the first room"),
    ...others.map((one) => make("option", { value: one.id }, one.name)));
  const side = select(["east", "north", "west", "south"]);
  return form(page, "A room", [size], [named("Size: across, then up the page", size), named("Use", use), named("Name", name), named("What it was before, where that changes", was),
    make("span", { class: "two" }, named("Beside", beside), named("On its side", side))], () => {
    const what = { do: "room", name: name.value, use: use.value, was: was.value, phase: was.value && phase() === "new" ? "altered" : phase(), story: page.story, size: size.value, side: side.value };
    if (beside.value) what.beside = beside.value;
    else if (draft.at) what.at = draft.at;
    return hooks.act(what);
  });
}

/** The rooms of the story to choose from, that of the draft first, else the one that is chosen on the plan. */
function roomChoice(page, first) {
  const rooms = page.state.plan.rooms.filter((one) => one.story === page.story);
  const node = make("select", { "data-first": first }, ...rooms.map((one) => make("option", { value: one.id }, one.name)));
  const wanted = [page.draft.room, page.chosen, page.lastRoom].find((id) => rooms.some((one) => one.id === id));
  if (wanted) node.value = wanted;
  return { node, room: () => rooms.find((one) => one.id === node.value) };
}

const undrawn = (title) => [make("h2", {}, title), make("p", { class: "call" }, "No room is drawn on this story yet. Draw the room first.")];

function opening(page, hooks) {
  const { draft } = page;
  const vehicle = draft.what === "vehicle door";
  const kind = vehicle ? "door" : draft.what;
  const clicked = draft.wall !== undefined;
  const part = draft.part || page.placing || "";
  const title = part ? `Place of ${page.state.parts[part]?.label}` : `A ${draft.what}`;
  const { node: where, room: within } = roomChoice(page, !clicked);
  if (!within()) return undrawn(title);
  const wall = make("select", {});
  const corner = make("select", {});
  const walls = () => wall.replaceChildren(...wallsNamed(within()).map((one, n) => make("option", { value: n }, `${one.side} wall, ${feet(one.length)}`)));
  const corners = () => corner.replaceChildren(...wallsNamed(within())[wall.value].corners.map((one, n) => make("option", { value: n }, `its ${one} corner`)));
  where.addEventListener("change", () => { walls(); corners(); });
  wall.addEventListener("change", corners);
  walls();
  if (clicked) wall.value = draft.wall;
  corners();
  const near = clicked && draft.along > draft.length / 2;
  corner.value = near ? 1 : 0;
  const size = reads(typed("", vehicle ? "16'-0\" x 7'-0\"" : kind === "door" ? "3'-0\" x 6'-8\"" : "3'-0\" x 4'-0\"", { "data-first": clicked }), "opening size");
  const distance = reads(typed(clicked ? `${Math.round(near ? draft.length - draft.along : draft.along)} in` : "", "2'-6\""), "distance");
  const operation = select(["", ...(kind === "door" ? DOORS : WINDOWS)]);
  if (vehicle) operation.value = "vehicle";
  const sill = kind === "window" && !part ? reads(typed("", "3'-0\""), "height") : null;
  const others = part ? [] : page.state.plan.openings.filter((one) => one.kind === kind);
  const like = others.length ? select([["", "none"], ...others.map((one) => [one.id, page.state.parts[one.id].label])]) : null;
  return form(page, title, [size, distance, ...(sill ? [sill] : [])], [...(like ? [named("Same size and make as", like)] : []), named("Size: width x height", size), make("span", { class: "two" }, named("In", where), named("In which wall", wall)),
    make("span", { class: "two" }, named("From which corner", corner), named("From the corner to its nearer jamb", distance)), ...(part ? [] : [named("Operation", operation)]), ...(sill ? [named("Sill above the floor, if known", sill)] : [])], async () => {
    const refused = await hooks.act({ do: "opening", kind, room: where.value, wall: Number(wall.value), distance: distance.value, from_end: corner.value === "1", size: size.value,
      operation: operation.value, sill: sill?.value ?? "", like: like?.value ?? "", phase: phase(), part });
    if (!refused) { page.placing = ""; page.lastRoom = where.value; }
    return refused;
  });
}

/** A story: its level, and how high its floor is, so that what lies over what is known. */
function story(page, hooks) {
  const level = select([["upper", "upper floor"], ["basement", "basement"], ["attic", "attic"], ["ground", "ground floor"]], { "data-first": true });
  const elevation = reads(typed("", "9'-1\""), "distance");
  const bare = page.state.plan.stories.every((one) => !one.id) && page.state.plan.rooms.length;
  const on = select([["ground", "ground floor"], ["upper", "upper floor"], ["basement", "basement"], ["attic", "attic"]]);
  return form(page, "A story", [elevation], [named("Which", level), named("Its finished floor above the ground floor, if known; below it with a minus", elevation),
    ...(bare ? [named("The rooms drawn so far are on the", on)] : [])],
  () => hooks.act({ do: "story", level: level.value, elevation: elevation.value, phase: phase(), rooms_on: bare ? on.value : "" }), "Add it");
}
