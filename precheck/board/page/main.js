// The page: what it shows follows from the board's state, from what is chosen, and from nothing else.

import { begin } from "./begin.js";
import { keepFocus } from "./focus.js";
import { interview } from "./interview.js";
import { by, make } from "./make.js";
import * as net from "./net.js";
import { showPart } from "./part.js";
import { Plan } from "./plan.js";
import { inSection, showSection } from "./section.js";
import { showTodo } from "./todo.js";
import { keys } from "./keys.js";
import { phone } from "./phone.js";
import { reading } from "./reading.js";
import { tracing } from "./tracing.js";
import { during } from "./working.js";
import { HINTS, complete, loose, next, stories, tools } from "./strip.js";

const MAKES = new Set(["room", "opening", "put", "stair", "hole", "member", "story"]); // what adds a part, whose values are shown then

export const page = { state: null, chosen: "", item: "", story: null, tool: "select", draft: null, tab: "plan", filter: "all" };
const plan = new Plan(by("plan"), page, { choose, act: onPlan, ask: (draft) => { page.draft = draft; parts(); } });

/** Choose a part, or the job as a whole by an empty id, and show its values. */
export function choose(id, focus = false) {
  return during(() => chosen(id, focus));
}

async function chosen(id, focus) {
  page.chosen = id;
  page.draft = null;
  const rooms = page.state.plan?.rooms ?? [];
  const at = [...rooms, ...page.state.plan.openings, ...page.state.plan.stairs].find((one) => one.id === id);
  if (at && page.story !== at.story) page.story = at.story;
  if (window.matchMedia("(max-width: 52rem)").matches && id) page.tab = "part";
  show();
  await parts(focus);
}

/** Ask the board for something; show what came of it. Returns why it was refused, or an empty text. */
export function act(what) {
  return during(() => acted(what));
}

async function acted(what) {
  let found;
  const formWas = document.activeElement;
  try {
    found = await net.act(what);
  } catch {
    ended();
    return "This page has ended.";
  }
  if (found.revision !== undefined) {
    const begun = !page.state.there;
    const chosenWas = page.chosen;
    const drafted = page.draft !== null && !["letter", "questions"].includes(page.draft.what);
    const added = MAKES.has(what.do) && !found.refused ? Object.keys(found.parts).find((id) => !page.state.parts[id]) : undefined;
    const still = same(found, page.state) && !page.draft && !added;
    page.state = found;
    if (!found.refused) {
      if (!["letter", "underlay", "questions"].includes(page.draft?.what)) page.draft = null;
      page.placing = "";
      if (page.draft?.what === "questions") page.chosen = found.next.of ?? "";
      else page.chosen = begun || (page.chosen && !found.parts?.[page.chosen]) ? found.plan?.loose[0]?.id ?? "" : added ?? page.chosen;
      const room = found.plan?.rooms.find((one) => one.id === page.chosen);
      if (room && (room.id !== chosenWas || what.part === room.id)) page.story = room.story; // what was placed is seen, and nobody led off the story they look at
      tell(found.changed?.length ? found.changed.join(". ") : "Saved.");
    }
    show(still);
    if (!found.refused) await parts(begun || (drafted && by("part").contains(formWas)));
  }
  Object.assign(page, { meant: found.meant ?? [], typed: found.typed ?? "" });
  return found.refused ?? "";
}

/** The same for what is done on the plan by hand, which has no field to say beside why it was refused. */
async function onPlan(what) {
  const refused = await act(what);
  by("hint").textContent = refused || HINTS[page.tool];
  by("hint").className = refused ? "refused" : "";
  if (refused) tell(refused);
  return refused;
}

export async function step(which) {
  const refused = await act({ do: which });
  tell(refused || (which === "undo" ? "Taken back." : "Made again."));
}

export const tell = (text) => { by("live").textContent = text; };

function ended() {
  bar("This page has ended, or the board cannot be reached. Run precheck board again; everything that was accepted is in the file.");
}

function bar(text) {
  by("bar").textContent = text;
  by("bar").hidden = !text;
}

function parts(focus = false) {
  return during(() => filled(focus));
}

async function filled(focus) {
  if (page.draft?.what === "underlay") return traced.panel();
  if (page.draft?.what === "questions") return interview(by("part"), page, { act, choose, step }, () => choose(""));
  return showPart(by("part"), page, { act, choose, step }, focus);
}

/** Return whether two states have the same plan, with the same marks on it. */
function same(one, other) {
  return ["plan", "parts", "underlay"].every((key) => JSON.stringify(one[key]) === JSON.stringify(other[key]));
}

/** Show the state; where the plan is `still` the same it is left as it is. */
export function show(still = false) {
  const { state } = page;
  const refocus = [by("tabs"), by("sheet")].map(keepFocus);
  const started = state.there && state.plan;
  by("begin").hidden = state.there;
  for (const id of ["head", "work", "foot"]) by(id).hidden = !started;
  bar(state.problems.length ? `The file cannot be read as it is; the plan shows how it was. ${state.problems.join(" ")}` : "");
  if (!state.there) return begin(by("begin"), page, act);
  if (!started) return undefined;
  document.title = `${state.name} - board`;
  by("name").textContent = state.name;
  by("code").textContent = [state.file, state.code, state.caveat].filter(Boolean).join(" · ");
  for (const which of ["undo", "redo"]) {
    by(which).disabled = !state[which];
    by(which).title = state[which] ? `${which === "undo" ? "Undo" : "Redo"}: ${state[which]}` : "";
  }
  by("verdict").textContent = state.verdict;
  by("verdict").className = state.ready ? "ready" : "stop";
  by("reminder").textContent = state.reminder;
  phone(state.share);
  by("handouts").querySelector("ul").replaceChildren(...Object.entries(state.handouts).map(([name, title]) =>
    make("li", {}, make("a", { href: `paper-${name}`, target: "_blank", rel: "noopener" }, title))),
  make("li", {}, make("button", { type: "button", onclick: () => { by("handouts").open = false; page.draft = { what: "letter" }; page.tab = "part"; show(); parts(); } }, "The town's letter...")));
  const known = state.plan.stories.map((one) => one.id);
  if (!known.includes(page.story)) page.story = known[0] ?? "";
  stories(by("stories"), page, { show, parts });
  tools(by("tools"), page, { show, parts });
  complete(by("complete"), page, { act });
  loose(by("loose"), page, { choose });
  next(by("next"), page, { choose, show, act, parts });
  by("cut").setAttribute("aria-pressed", String(inSection(page)));
  if (!inSection(page) && still !== true) plan.show();
  showSection(by("section"), page, { act });
  showTodo(by("todo"), page, { act, choose, show });
  tabs();
  for (const again of refocus) again();
  return undefined;
}

function tabs() {
  const names = { plan: "Plan", part: "This part", todo: `To do (${page.state.items.length})` };
  by("tabs").replaceChildren(...Object.entries(names).map(([tab, text]) =>
    make("button", { type: "button", "aria-pressed": String(page.tab === tab), onclick: () => { page.tab = tab; show(); } }, text)));
  by("work").dataset.tab = page.tab;
}

async function look() {
  try {
    const found = await net.state(page.state?.revision, page.state?.underlay?.revision);
    if (found.there === undefined && found.underlay) {
      page.state.underlay = found.underlay;
      show();
      await parts();
    }
    if (found.there !== undefined && found.revision >= (page.state?.revision ?? 0)) {
      const first = page.state === null;
      page.state = found;
      if (first) page.chosen = found.plan?.loose[0]?.id ?? "";
      show();
      if (!first) tell((found.changed ?? []).join(". "));
      if (page.state.there && !document.activeElement?.closest?.("#part")) await parts();
    }
  } catch {
    ended();
  }
  setTimeout(look, document.hidden ? 4000 : 1000);
}

by("undo").addEventListener("click", () => step("undo"));
by("redo").addEventListener("click", () => step("redo"));
for (const one of document.querySelectorAll("[name=phase]")) one.addEventListener("change", () => { show(); if (!page.draft) parts(); });
by("cut").addEventListener("click", () => { page.view = inSection(page) ? "plan" : "section"; show(); });
by("fit").addEventListener("click", () => plan.fit());
by("in").addEventListener("click", () => plan.zoom(1.25));
by("out").addEventListener("click", () => plan.zoom(0.8));
const traced = tracing(plan, page, { show, tell, ended });
reading();
keys(page, plan, { act: onPlan, choose, parts, step, show, tell });
addEventListener("pagehide", () => navigator.sendBeacon("bye", new Blob(["{}"], { type: "application/json" }))); // which ends a board that nobody has open
look();
