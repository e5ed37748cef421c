// The board to read on a phone: the plan first and whole, what is to do, and what to verify on site. It asks, and sends nothing.

import { by, make } from "./make.js";
import { Plan } from "./plan.js";

const page = { state: null, chosen: "", story: null, tool: "select", draft: null, readOnly: true };
const plan = new Plan(by("plan"), page, { choose, act: () => "", ask: () => {} });
const PATIENCE = 30_000;
let verified = null; // the revision whose field-verify list is shown

function choose(id) {
  page.chosen = page.chosen === id ? "" : id;
  const part = page.state.parts[page.chosen];
  const count = page.state.items.filter((item) => item.parts.includes(page.chosen)).length;
  by("live").textContent = part ? `${part.label}: ${count} to do` : "";
  show();
  if (part) by("todo").scrollIntoView({ block: "start" });
}

function show() {
  const { state } = page;
  by("bar").textContent = state.problem ?? "";
  by("bar").hidden = !state.problem;
  if (!state.plan) {
    by("name").textContent = "Nothing is drawn yet";
    return;
  }
  document.title = `${state.name} - to read`;
  by("name").textContent = state.name;
  by("code").textContent = [state.code, state.caveat].filter(Boolean).join(" · ");
  by("verdict").textContent = state.verdict;
  by("verdict").className = state.ready ? "ready" : "stop";
  by("reminder").textContent = state.reminder;
  const { stories } = state.plan;
  if (!stories.some((one) => one.id === page.story)) page.story = stories[0]?.id ?? "";
  by("stories").replaceChildren(...(stories.length > 1 ? stories : []).map((one) =>
    make("button", { type: "button", "aria-pressed": String(one.id === page.story), onclick: () => { page.story = one.id; show(); } }, one.label)));
  by("plan").style.height = `${tall()}px`;
  plan.show();
  todo(by("todo"));
}

/** As much of the height as the plan takes at the whole width, so that what is to do begins under it. */
function tall() {
  const points = plan.here(page.state.plan.rooms).flatMap((room) => room.outline);
  if (!points.length) return 240;
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [across, up] = [Math.max(...xs) - Math.min(...xs) + 96, Math.max(...ys) - Math.min(...ys) + 150];
  return Math.round(Math.min(Math.max(by("plan").clientWidth * up / across, 200), innerHeight * 0.62));
}

function todo(node) {
  const { state, chosen } = page;
  const part = state.parts[chosen];
  const items = part ? state.items.filter((item) => item.parts.includes(chosen)) : state.items;
  const groups = state.groups.filter((group) => items.some((item) => item.group === group.key));
  node.replaceChildren(make("h2", {}, part ? `${part.label} (${items.length})` : `What to do (${items.length})`),
    part ? make("p", {}, make("button", { type: "button", onclick: () => choose(chosen) }, "Show all")) : "",
    items.length ? "" : make("p", {}, "Nothing is to do about it."),
    ...groups.flatMap((group) => [make("h3", {}, group.title), make("ul", { class: "items" }, ...items.filter((item) => item.group === group.key).map(one))]));
}

function one(item) {
  const more = [item.fix ? make("p", { class: "fix" }, `Fix: ${item.fix}`) : "", ...item.wants.map((want) => make("p", {}, want)), make("p", { class: "soft" }, item.source)];
  return make("li", {}, make("details", { "data-item": item.key }, make("summary", {}, make("span", { class: `sign ${item.group}`, "aria-hidden": "true" }),
    make("span", {}, make("b", {}, item.label), " ", item.said)), make("div", { class: "more" }, ...more)));
}

/** The field-verify list, from the paper of that name: its headings and lines, taken as text. */
async function field(revision) {
  const answer = await fetch("paper-field", { signal: AbortSignal.timeout(PATIENCE) });
  if (!answer.ok) return;
  const paper = new DOMParser().parseFromString(await answer.text(), "text/html");
  const all = [...paper.querySelectorAll("h2, li, body > p")];
  const first = all.findIndex((one) => one.tagName === "H2"); // before it stands what this page has shown already, and how to measure
  const lines = all.slice(Math.max(first - 1, 0)).map((one) => make({ H2: "h3", LI: "li" }[one.tagName] ?? "p", {}, one.textContent.replaceAll("____________", "____")));
  const shown = [];
  for (const line of lines) {
    if (line.localName !== "li") shown.push(line);
    else if (shown.at(-1)?.localName === "ul") shown.at(-1).append(line);
    else shown.push(make("ul", { class: "verify" }, line));
  }
  by("field").replaceChildren(make("h2", {}, "Verify on site"), make("p", {}, make("a", { href: "paper-field" }, "The sheet, to print")), ...shown);
  verified = revision;
}

async function look() {
  try {
    const answer = await fetch(`state?revision=${page.state?.revision ?? ""}`, { signal: AbortSignal.timeout(PATIENCE) });
    if (!answer.ok) throw new Error(String(answer.status));
    const found = await answer.json();
    if (found.there !== undefined) {
      page.state = found;
      show();
      if (found.plan && verified !== found.revision) await field(found.revision);
    }
    by("bar").hidden = !page.state?.problem;
  } catch {
    by("bar").textContent = "The board has ended, or this phone has left its network. What is shown may be old.";
    by("bar").hidden = false;
  }
  setTimeout(look, document.hidden ? 10_000 : 3000);
}

by("fit").addEventListener("click", () => plan.fit());
by("in").addEventListener("click", () => plan.zoom(1.25));
by("out").addEventListener("click", () => plan.zoom(0.8));
look();
