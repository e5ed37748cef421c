// Keys. Single letters count only while the plan or the list has the focus, so that nobody loses what is typed.

import { by } from "./make.js";
import { find, listOfKeys } from "./dialogs.js";

const TOOL = { v: "select", r: "room", d: "door", w: "window", a: "alarm", l: "light", p: "receptacle", f: "fixture",
  g: "vehicle door", s: "stair", c: "hole", o: "post", b: "beam", h: "appliance", x: "exhaust", e: "panel", t: "underlay" };
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const REGIONS = ["plan", "part", "todo", "head"];

export function keys(page, plan, hooks) {
  by("find").addEventListener("click", () => find(page, hooks));
  by("keys").addEventListener("click", listOfKeys);
  addEventListener("keydown", async (event) => {
    if (!page.state?.plan || event.target.closest?.("dialog")) return;
    const typing = event.target.closest?.("input:not([type=checkbox]):not([type=radio]), select, textarea");
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !typing) {
      event.preventDefault();
      await hooks.step(event.shiftKey ? "redo" : "undo");
    } else if (event.key === "Escape") {
      await givenUp(event, page, plan, hooks);
    } else if (event.key === "F6") {
      event.preventDefault();
      nextRegion(event.shiftKey ? -1 : 1, page, hooks);
    } else if (!typing && event.target.closest?.("#plan, #todo")) {
      if (anywhere(event, page, hooks)) event.preventDefault();
      else if (event.target.closest("#plan")) await onPlan(event, page, plan, hooks);
    }
  });
}

/** Give up: what is being dragged, then what is being put on the plan, then what is typed, then what is chosen. */
async function givenUp(event, page, plan, { choose, parts, show }) {
  const kept = page.chosen;
  if (plan.givenUp()) return;
  plan.focus(kept);
  if (page.draft || page.tool !== "select") {
    Object.assign(page, { draft: null, tool: "select", placing: "" });
    show();
    await parts();
  } else if (event.target.closest?.("#part")) {
    await parts(); // what was typed and not taken is given up
  } else if (kept) {
    await choose("");
  }
}

function nextRegion(way, page, { show }) {
  const at = REGIONS.findIndex((id) => by(id).contains(document.activeElement));
  const id = REGIONS[(at + way + REGIONS.length) % REGIONS.length];
  if (by("tabs").offsetParent && id !== "head") {
    page.tab = id;
    show();
  }
  const first = by(id).querySelector("[data-part], input, select, button, summary");
  (first ?? by(id)).focus();
}

/** Return whether the key was one that counts on the plan and in the list. */
function anywhere(event, page, hooks) {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.key === "?") listOfKeys();
  else if (event.key === "/") find(page, hooks);
  else if (event.key.toLowerCase() === "n") nextItem(event.shiftKey ? -1 : 1, page, hooks);
  else if (event.key === "PageUp" || event.key === "PageDown") otherStory(event.key === "PageUp" ? 1 : -1, page, hooks);
  else return false;
  return true;
}

function nextItem(way, page, { show }) {
  if (by("tabs").offsetParent && page.tab !== "todo") {
    page.tab = "todo";
    show();
  }
  const found = [...by("todo").querySelectorAll("[data-item]")];
  const at = found.findIndex((one) => one.contains(document.activeElement));
  const next = found[at < 0 && way < 0 ? found.length - 1 : (at + way + found.length) % found.length];
  if (!next) return;
  for (const one of found) one.open = one === next;
  next.querySelector("summary").focus();
}

function otherStory(way, page, { show, tell }) {
  const known = page.state.plan.stories;
  const next = known[known.findIndex((one) => one.id === page.story) + way];
  if (!next) return;
  page.story = next.id;
  show();
  tell(next.label);
}

async function onPlan(event, page, plan, { act, show, tell }) {
  const key = event.key.toLowerCase();
  if (ARROWS[event.key] && page.chosen) {
    event.preventDefault();
    const inches = event.altKey ? 0.25 : event.shiftKey ? 12 : 1;
    await plan.nudge(ARROWS[event.key].map((way) => way * inches), act);
  } else if (TOOL[key] && !event.ctrlKey && !event.metaKey) {
    event.preventDefault();
    document.querySelector(`[data-tool="${TOOL[key]}"]`)?.click();
  } else if (event.key === "+" || event.key === "-") {
    plan.zoom(event.key === "+" ? 1.25 : 0.8);
  } else if (event.key === "0") {
    plan.fit();
  } else if (/^[1-9]$/.test(event.key) && page.chosen) {
    typedSize(event);
  } else if (event.key === "Delete" && page.chosen) {
    const refused = await act({ do: "take out", part: page.chosen });
    if (!refused) {
      tell("Taken out.");
      show();
    }
  }
}

/** A digit begins a typed size of what is chosen. */
function typedSize(event) {
  const field = by("part").querySelector("[data-field='size in plan'], [data-field='unit size']");
  if (!field) return;
  event.preventDefault();
  field.value = event.key;
  field.focus();
}
