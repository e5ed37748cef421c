// Where a thing goes, as typed: so far from two walls of a room, or so far along one of its walls. What a click says, a form says too.

import { feet, make, reads } from "./make.js";
import { wallsNamed } from "./walls.js";

export const named = (label, ...input) => make("label", {}, make("span", {}, label), ...input);
export const select = (values, more) => make("select", more ?? {}, ...values.map((one) => (Array.isArray(one)
  ? make("option", { value: one[0] }, one[1]) : make("option", { value: one }, one || "not shown"))));
const FREE = "free";

/** Fields for a place in a room. `draft` may hold a room, a point and a wall that was clicked. Returns the fields, and `read`. */
export function spotFields(page, draft, { walls = true, first = false, to = "its middle" } = {}) {
  const rooms = page.state.plan.rooms.filter((one) => one.story === page.story || one.id === draft.room);
  const room = select(rooms.map((one) => [one.id, one.name]), first ? { "data-first": true } : {});
  const where = select([]);
  const one = reads(make("input", { autocomplete: "off", placeholder: "3'-6\"" }), "distance");
  const two = reads(make("input", { autocomplete: "off", placeholder: "4 ft" }), "distance");
  const [oneName, twoName] = [make("span", {}), make("span", {})];
  const second = make("label", {}, twoName, two);
  const corner = select([]);
  const from = named("From which corner", corner);
  const wanted = [draft.room, page.chosen, page.lastRoom].find((id) => rooms.some((each) => each.id === id));
  if (wanted) room.value = wanted;
  const chosen = () => rooms.find((each) => each.id === room.value);
  const told = () => {
    const free = where.value === FREE;
    oneName.textContent = free ? `From the west wall to ${to}` : `From the corner to ${to}`;
    twoName.textContent = `From the south wall to ${to}`;
    second.hidden = !free;
    from.hidden = free;
    if (!free) corner.replaceChildren(...wallsNamed(chosen())[where.value].corners.map((one_, n) => make("option", { value: n }, `its ${one_} corner`)));
  };
  const refill = () => {
    const listed = chosen() && walls ? wallsNamed(chosen()).map((each, n) => [String(n), `on its ${each.side} wall, ${feet(each.length)}`]) : [];
    where.replaceChildren(...[[FREE, "so far from two walls"], ...listed].map(([value, text]) => make("option", { value }, text)));
    told();
  };
  room.addEventListener("change", refill);
  where.addEventListener("change", told);
  refill();
  clicked(draft, { where, one, two, chosen, told, corner });
  const lines = [named("In", room), make("label", { hidden: !walls }, make("span", {}, "Where"), where), from, make("label", {}, oneName, one), second];
  return { lines, inputs: [one, two], room, read: () => ({ room: room.value, ...reading(where.value, one.value, two.value, corner.value) }) };
}

function clicked(draft, { where, one, two, chosen, told, corner }) {
  if (draft.wall !== undefined && draft.along !== undefined) {
    where.value = String(draft.wall);
    told();
    const far = draft.along > draft.length / 2;
    corner.value = far ? "1" : "0";
    one.value = `${Math.round(far ? draft.length - draft.along : draft.along)} in`;
  } else if (draft.point && chosen()) {
    const [xs, ys] = [0, 1].map((n) => chosen().outline.map((point) => point[n]));
    [one.value, two.value] = [draft.point[0] - Math.min(...xs), draft.point[1] - Math.min(...ys)].map((n) => feet(n));
  }
}

function reading(where, one, two, corner) {
  if (where === FREE) return { from_west: one, from_south: two };
  return { wall: Number(where), distance: one, from_end: corner === "1" };
}
