// An opening through a floor, ceiling or roof: dragged on the plan, typed, or as the stair that comes up through it.

import { make, reads } from "./make.js";
import { named, select, spotFields } from "./spot.js";
import { form } from "./tray.js";

const phase = () => document.querySelector("[name=phase]:checked").value;

export function hole(page, hooks) {
  const { draft } = page;
  const part = draft.part || page.placing || "";
  const through = select(["floor", "ceiling", "roof"], { "data-first": true });
  const size = reads(make("input", { autocomplete: "off", placeholder: "3'-0\" x 10'-6\"", value: draft.size ?? "" }), "room size");
  const joists = select([["", "not known"], ["along the page", "east and west, along the page"], ["up the page", "north and south, up the page"]]);
  const stairs = new Map(page.state.plan.stairs.map((one) => [one.id, `stair ${one.id}`]));
  const stair = select([["", "none"], ...stairs]);
  const here = page.state.plan.stairs.filter((one) => one.story === page.story && one.end === "DN");
  if (here.length === 1) stair.value = here[0].id; // the one that comes up to this story, and it is seen
  const spot = spotFields(page, draft, { walls: false, to: "its nearer side" });
  return form(page, part ? `Place of ${page.state.parts[part].label}` : "An opening through a floor", "Drag it on the plan, or type it here. What is left empty is as it is of the stair.",
    [named("Through the", through), named("Stair that comes up through it", stair), named("Size: across, then up the page", size), named("Which way the joists run", joists), ...spot.lines],
    () => hooks.act({ do: "hole", through: through.value, stair: stair.value, size: size.value, joists: joists.value, phase: phase(), part, ...asRead(spot.read(), page) }), [size, ...spot.inputs]);
}

/** The place as typed; none where both distances are empty, for then it is over its stair. */
const asRead = ({ from_west, from_south, ...more }) => ({ ...more, ...(from_west || from_south ? { from_west, from_south } : {}) });
