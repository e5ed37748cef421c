// What to do, in the order in which it stops the job; each thing opens to the fields that settle it.

import { keepFocus } from "./focus.js";
import { make } from "./make.js";
import * as net from "./net.js";
import { valueField } from "./part.js";
import { question, twice } from "./question.js";

export function showTodo(node, page, hooks) {
  const { state } = page;
  const groups = state.groups.filter((group) => page.filter === "all" || group.key === page.filter);
  const open = node.querySelector("details[open][data-item]")?.dataset.item;
  const scrolled = node.scrollTop;
  const refocus = keepFocus(node);
  node.replaceChildren(...[make("h2", {}, `What to do (${state.items.length})`), changed(state), works(state), filters(page, hooks)].filter(Boolean),
    ...groups.flatMap((group) => [make("h3", {}, `${group.title} (${group.count})`), make("p", { class: "soft" }, group.lead),
      make("ul", { class: "items" }, ...state.items.filter((item) => item.group === group.key).map((item) => shown(item, page, hooks, item.key === open, refocus)))]));
  if (!state.items.length) node.append(make("p", {}, state.works.length ? "Nothing is left to do here." : "Nothing is checked yet: the file shows no work."));
  node.scrollTop = scrolled;
  if (!state.items.some((item) => item.key === open)) refocus();
}

function applied(item, page, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const send = async () => { refused.textContent = await hooks.act({ do: "apply", item: item.key }); };
  return make("p", {}, make("button", { type: "button", class: "main", onclick: send }, `Change it to ${item.apply}`), refused);
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
    make("span", {}, make("b", {}, item.label), " ", item.said)), more);
  const fill = async () => {
    const answered = await net.asks(item.key);
    const found = answered.asks;
    more.replaceChildren(
      item.fix ? make("p", { class: "fix" }, `Fix: ${item.fix}`) : "",
      ...(item.apply ? [applied(item, page, hooks)] : []),
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
