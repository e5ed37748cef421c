// What is being put on the plan, as a form: everything that a hand can draw can be typed here.

import { answerTo, make } from "./make.js";
import { named, select } from "./spot.js";
import { member, stair, thing } from "./tray.js";

export const USES = ["bedroom", "living room", "dining room", "kitchen", "family room", "office", "bathroom", "toilet room", "laundry", "hall", "closet",
  "storage", "utility", "workshop", "garage", "carport", "attic", "crawl space", "porch", "deck", "sunroom"];
const DOORS = ["side-hinged", "sliding", "folding", "pocket", "vehicle", "hatch", "cased opening"];
const WINDOWS = ["casement", "double hung", "single hung", "slider", "awning", "hopper", "fixed"];
const phase = () => document.querySelector("[name=phase]:checked").value;

export function drafting(node, page, hooks) {
  const shown = { room, door: opening, window: opening, "vehicle door": opening, stair, member, thing }[page.draft.what];
  node.replaceChildren(...shown(page, hooks));
  node.querySelector("[data-first]")?.focus();
}

function form(page, title, size, lines, send, button = "Put it on the plan") {
  const refused = make("p", { class: "refused", role: "alert" });
  return [make("h2", {}, title), make("form", { class: "value", onsubmit: async (event) => {
    event.preventDefault();
    answerTo(page, await send(), refused, size);
  } }, ...lines, make("button", { type: "submit", class: "main" }, button), refused)];
}

function room(page, hooks) {
  const { draft } = page;
  const size = make("input", { value: draft.size ?? "", placeholder: "11'-4\" x 14'-0\"", "data-first": true, autocomplete: "off" });
  const name = make("input", { placeholder: "Bedroom 2", autocomplete: "off" });
  const use = select(["", ...USES]);
  const was = select(["", ...USES]);
  const others = page.state.plan.rooms.filter((one) => one.story === page.story);
  const beside = make("select", {}, make("option", { value: "" }, draft.at ? "where it was drawn" : others.length ? "to the right of all" : "as the first room"),
    ...others.map((one) => make("option", { value: one.id }, one.name)));
  const side = select(["east", "north", "west", "south"]);
  return form(page, "A room", size, [named("Size: across, then up the page", size), named("Use", use), named("Name", name), named("What it was before, where that changes", was),
    make("span", { class: "two" }, named("Beside", beside), named("On its side", side))], () => {
    const what = { do: "room", name: name.value, use: use.value, was: was.value, phase: was.value && phase() === "new" ? "altered" : phase(), story: page.story, size: size.value, side: side.value };
    if (beside.value) what.beside = beside.value;
    else if (draft.at) what.at = draft.at;
    return hooks.act(what);
  });
}

function opening(page, hooks) {
  const { draft } = page;
  const vehicle = draft.what === "vehicle door";
  const kind = vehicle ? "door" : draft.what;
  const near = draft.along > draft.length / 2;
  const corner = near ? draft.length - draft.along : draft.along;
  const size = make("input", { placeholder: vehicle ? "16'-0\" x 7'-0\"" : kind === "door" ? "3'-0\" x 6'-8\"" : "3'-0\" x 4'-0\"", "data-first": true, autocomplete: "off" });
  const distance = make("input", { value: `${Math.round(corner)} in`, autocomplete: "off" });
  const end = select(["from the nearer corner", "from the other corner"]);
  const operation = select(["", ...(kind === "door" ? DOORS : WINDOWS)]);
  if (vehicle) operation.value = "vehicle";
  const where = page.state.plan.rooms.find((one) => one.id === draft.room);
  const placing = draft.part ? page.state.parts[draft.part] : null;
  return form(page, placing ? `Place of ${placing.label}` : `A ${draft.what} in ${where.name}`, size, [named("Size: width x height", size), named("From the corner to its nearer jamb", distance), end,
    ...(placing ? [] : [named("Operation", operation)])], async () => {
    const other = end.value === "from the other corner";
    const refused = await hooks.act({ do: "opening", kind, room: draft.room, wall: draft.wall, distance: distance.value, from_end: near !== other, size: size.value,
      operation: operation.value, phase: phase(), part: draft.part ?? "" });
    if (!refused) page.placing = "";
    return refused;
  });
}
