// One question after another in the panel, each as soon as the one before it is answered or left to someone.

import { keepFocus } from "./focus.js";
import { make } from "./make.js";
import * as net from "./net.js";
import { question } from "./question.js";

/** Show the question that comes next; `ended` is called where the next thing to do is no question. */
export async function interview(node, page, hooks, ended) {
  const step = page.state.next;
  if (step?.need === undefined) return ended();
  const { asks } = await net.asks(step.item);
  if (page.draft?.what !== "questions" || page.state.next.item !== step.item || page.state.next.need !== step.need) return undefined;
  const ask = asks.find((one) => one.need === step.need);
  if (!ask) return ended();
  const open = asks.filter((one) => !one.later).length;
  const leave = (said, to) => make("button", { type: "button", onclick: () => hooks.act({ do: "later", item: step.item, to }) }, said);
  const about = page.state.parts[ask.of]?.label;
  const refocus = keepFocus(node);
  node.replaceChildren(make("h2", {}, about ?? "The job"), make("p", { class: "soft" }, `${step.rest} ${step.rest === 1 ? "question" : "questions"} to go. What you do not know goes on the field-verify sheet.`),
    question(ask, page, hooks),
    ...(open > 1 ? [make("p", { class: "more-of-it" }, `All ${open} that are asked of it:`, leave("I know none of them yet", "find out"), leave("The drafter shows them", "drafter"))] : []),
    make("p", {}, make("button", { type: "button", onclick: () => hooks.choose(ask.of) }, about ? "Show all of it" : "Show the job")));
  refocus();
  (node.querySelector("input[data-field], select[data-field]") ?? node.querySelector("input, select, button"))?.focus();
  return undefined;
}
