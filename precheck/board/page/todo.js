// What to do, in the order in which it stops the job; each thing opens to the fields that settle it.

import { keepFocus } from "./focus.js";
import { make } from "./make.js";
import * as net from "./net.js";
import { valueField } from "./part.js";
import { question, twice } from "./question.js";

const kept = new Map(); // what is in the list, by its key: it is made anew only where something else is said of it
const lists = new Map(); // the list of each group

export function showTodo(node, page, hooks) {
  const { state } = page;
  const groups = state.groups.filter((group) => page.filter === "all" || group.key === page.filter);
  const open = node.querySelector("details[open][data-item]")?.dataset.item;
  const refocus = keepFocus(node);
  const before = new Set(kept.keys());
  const listed = groups.flatMap((group) => {
    const items = state.items.filter((item) => item.group === group.key);
    for (const item of items) before.delete(item.key);
    return listOf(group, items.map((item) => again(item, page, hooks, item.key === open, refocus)));
  });
  for (const key of before) kept.delete(key);
  const nothing = state.items.length ? null : make("p", {}, state.works.length ? "Nothing is left to do here." : "Nothing is checked yet: the file shows no work.");
  put(node, [make("h2", {}, `What to do (${state.items.length})`), changed(state), works(state), filters(page, hooks), ...listed, nothing].filter(Boolean));
  if (!state.items.some((item) => item.key === open)) refocus();
}

/** Put children into a node, and touch none that stands where it is to stand: what is not touched need not be laid out anew. */
function put(node, children) {
  let at = node.firstChild;
  for (const child of children) {
    if (child === at) at = at.nextSibling;
    else node.insertBefore(child, at);
  }
  while (at) {
    const next = at.nextSibling;
    at.remove();
    at = next;
  }
}

function listOf(group, items) {
  if (!lists.has(group.key)) lists.set(group.key, [make("h3", {}), make("p", { class: "soft" }, group.lead), make("ul", { class: "items" })]);
  const found = lists.get(group.key);
  const title = `${group.title} (${group.count})`;
  if (found[0].textContent !== title) found[0].textContent = title;
  put(found[2], items);
  return found;
}

function again(item, page, hooks, open, refocus) {
  const said = JSON.stringify([item, item.parts.map((id) => page.state.parts[id]?.label), item.parts.includes(page.chosen)]);
  const was = kept.get(item.key);
  if (was?.said === said && !open && !was.node.querySelector("details").open && !was.node.querySelector(".more").childElementCount) return was.node;
  const node = shown(item, page, hooks, open, refocus);
  kept.set(item.key, { said, node });
  return node;
}

function applied(item, said, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const send = async () => { refused.textContent = await hooks.act({ do: "apply", item: item.key }); };
  return make("p", {}, make("button", { type: "button", class: "main", onclick: send }, `Change it to ${said}`), refused);
}

function changed(state) {
  if (!state.changed.length) return null;
  const [first, ...more] = state.changed;
  return make("div", { class: "changed" }, make("p", {}, make("b", {}, first)), make("ul", {}, ...more.map((line) => make("li", {}, line))));
}

const works = (state) => make("ul", { class: "works" }, ...state.works.map((work) => make("li", {}, make("b", {}, work.name), ` ${work.count}`)));

function filters(page, { show }) {
  const names = [["all", "All"], ...page.state.groups.map((group) => [group.key, group.title])];
  return make("div", { class: "filters", role: "group", "aria-label": "Show" }, ...names.map(([key, title]) =>
    make("button", { type: "button", "aria-pressed": String(page.filter === key), onclick: () => { page.filter = key; show(); } }, title)));
}

function shown(item, page, hooks, open, refocus) {
  const { parts } = page.state;
  const more = make("div", { class: "more" });
  const details = make("details", { "data-item": item.key, open }, make("summary", {}, make("span", { class: `sign ${item.group}`, "aria-hidden": "true" }),
    make("span", {}, make("b", {}, item.label), " ", item.said, item.left ? make("span", { class: "soft" }, ` (${item.left})`) : "")), more);
  const fill = async () => {
    const answered = await net.asks(item.key);
    const found = answered.asks;
    more.replaceChildren(
      item.fix ? make("p", { class: "fix" }, `Fix: ${item.fix}`) : "",
      ...(answered.apply ? [applied(item, answered.apply, hooks)] : []),
      ...(answered.twice ?? []).map((fact) => twice(fact, hooks)),
      ...(answered.values ?? []).map((value) => valueField(value.part, value, page, hooks, item.parts.length > 1 ? value.of : "")),
      ...item.look.map((why) => make("p", { class: "soft" }, why)),
      ...found.map((ask) => question(ask, page, hooks, item.parts.length > 1 ? parts[ask.of]?.label ?? "" : "")),
      item.source ? make("p", { class: "soft" }, item.source) : "",
      make("p", {}, ...item.parts.filter((id) => parts[id]).map((id) => make("button", { type: "button", onclick: () => hooks.choose(id) }, `Show ${parts[id].label}`))));
  };
  details.addEventListener("toggle", () => details.open && !more.childElementCount && fill());
  if (open) fill().then(refocus);
  return make("li", { class: item.parts.includes(page.chosen) ? "of-chosen" : "" }, details);
}
