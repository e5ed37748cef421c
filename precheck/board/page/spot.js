// Where a thing goes, as typed: so far from two walls of a room, or so far along one of its walls. What a click says, a form says too.

import { endName, wallName, wallsOf } from "./geometry.js";
import { feet, make } from "./make.js";

export const named = (label, ...input) => make("label", {}, make("span", {}, label), ...input);
export const select = (values, more) => make("select", more ?? {}, ...values.map((one) => (Array.isArray(one)
  ? make("option", { value: one[0] }, one[1]) : make("option", { value: one }, one || "not shown"))));
const FREE = "free";

/** Fields for a place in a room. `draft` may hold a room, a point and a wall that was clicked. Returns the fields, and `read`. */
export function spotFields(page, draft, { walls = true, first = false, to = "its middle" } = {}) {
  const rooms = page.state.plan.rooms.filter((one) => one.story === page.story || one.id === draft.room);
  const room = select(rooms.map((one) => [one.id, one.name]), first ? { "data-first": true } : {});
  const where = select([]);
  const one = make("input", { autocomplete: "off", placeholder: "3'-6\"" });
  const two = make("input", { autocomplete: "off", placeholder: "4 ft" });
  const [oneName, twoName] = [make("span", {}), make("span", {})];
  const second = make("label", {}, twoName, two);
  if (draft.room) room.value = draft.room;
  const chosen = () => rooms.find((each) => each.id === room.value);
  const told = () => {
    const free = where.value === FREE;
    const far = draft.far && where.value === String(draft.wall);
    oneName.textContent = free ? `From the room's west wall to ${to}` : `From its ${endName(chosen(), Number(where.value), far)} end to ${to}`;
    twoName.textContent = `From its south wall to ${to}`;
    second.hidden = !free;
  };
  const refill = () => {
    const listed = chosen() && walls ? wallsOf(chosen()).map((_, n) => [String(n), `on its ${wallName(chosen(), n)}`]) : [];
    where.replaceChildren(...[[FREE, "so far from two walls"], ...listed].map(([value, text]) => make("option", { value }, text)));
    told();
  };
  room.addEventListener("change", refill);
  where.addEventListener("change", told);
  refill();
  clicked(draft, { where, one, two, chosen });
  told();
  const lines = [named("In", room), make("label", { hidden: !walls }, make("span", {}, "Where"), where), make("label", {}, oneName, one), second];
  return { lines, room, size: one, read: () => ({ room: room.value, ...reading(where.value, one.value, two.value, draft) }) };
}

function clicked(draft, { where, one, two, chosen }) {
  if (draft.wall !== undefined && draft.along !== undefined) {
    where.value = String(draft.wall);
    draft.far = draft.along > draft.length / 2;
    one.value = `${Math.round(draft.far ? draft.length - draft.along : draft.along)} in`;
  } else if (draft.point && chosen()) {
    const [xs, ys] = [0, 1].map((n) => chosen().outline.map((point) => point[n]));
    [one.value, two.value] = [draft.point[0] - Math.min(...xs), draft.point[1] - Math.min(...ys)].map((n) => feet(n));
  }
}

function reading(where, one, two, draft) {
  if (where === FREE) return { west: one, south: two };
  return { wall: Number(where), distance: one, from_end: Number(where) === draft.wall && Boolean(draft.far) };
}
