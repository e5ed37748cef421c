// What is asked, as fields to fill: why, how it is measured, what is usual; "I do not know yet" is an answer too.

import { answerTo, make, reads } from "./make.js";
import { picture } from "./pictures.js";


export const labeled = (text, input) => make(input.matches("input, select") ? "label" : "div", { class: "labeled" }, make("span", {}, text), input);

/** Put a question: `about` is what it is about where the heading over it does not say so. */
export function question(ask, page, hooks, about = "") {
  const heading = make("p", { class: "asked" }, about ? `${about}: ${ask.said}` : ask.said);
  const whole = (...content) => (ask.later
    ? make("details", { class: "ask left" }, make("summary", {}, `${heading.textContent}: ${ask.later === "drafter" ? "for the drafter to show" : "to find out"}`), ...content)
    : make("div", { class: "ask" }, heading, ...content));
  const same = alike(ask);
  if (ask.tick) return whole(ticked(ask.tick, hooks));
  if (ask.parts.length) return whole(toDraw(ask), byParts(ask, page, hooks), same.node, more(ask, hooks, same));
  if (!ask.field) return whole(toDraw(ask), ...byHand(ask), ask.settled ? make("p", { class: "soft" }, ask.settled) : "", same.node, more(ask, hooks, same));
  if (!ask.later && !ask.field.fields.length) heading.hidden = true; // its field says it, in the same words or better
  return whole(toDraw(ask), byField(ask, page, hooks, about, same), more(ask, hooks, same));
}

/** Other parts of which the same is asked: a tick by which what is answered, or left, holds for them too. */
function alike(ask) {
  const others = ask.later ? [] : ask.alike ?? [];
  if (!others.length) return { node: "", ids: () => [] };
  const box = make("input", { type: "checkbox", name: "alike" });
  const names = others.map((one) => one.label).join(", ");
  return { ids: () => (box.checked ? others.map((one) => one.id) : []), node: make("label", { class: "alike" }, box, ask.one_answer ? ` The same for ${names}` : ` Leave it for ${names} as well`) };
}

function ticked({ story, what, to_draw }, hooks) {
  const told = document.querySelectorAll("#complete [name=drawn]:checked");
  const send = () => hooks.act(to_draw ? { do: "drawn", story, to_draw } : { do: "drawn", story, what: [...new Set([...[...told].map((one) => one.value), what])] });
  return make("p", {}, make("button", { type: "button", onclick: send }, `All ${what} of this story are drawn`));
}

const CALLED = { exhaust: "a fan", alarm: "an alarm", hole: "the opening" };

function toDraw(ask) {
  if (!ask.tool) return "";
  const go = () => document.querySelector(`#tools [data-tool="${ask.tool}"]`)?.click();
  return make("p", {}, make("button", { type: "button", class: ask.field || ask.parts.length ? "" : "main", onclick: go }, `Put ${CALLED[ask.tool] ?? `a ${ask.tool}`} on the plan`));
}

const byHand = (ask) => (ask.by_hand ? [make("p", { class: "soft" }, `Add ${ask.by_hand.where}, such as:`), make("pre", {}, ask.by_hand.lines.join("\n"))] : []);

/** Why it is asked, and the ways not to answer. */
function more(ask, hooks, same) {
  const leave = (said, left, to) => make("button", { type: "button", onclick: () => hooks.act({ do: "later", item: ask.item, need: ask.need, left, to, also: same.ids() }) }, said);
  const later = ask.later ? [leave("Take it up again", false, ask.later)] : [leave("I do not know yet", true, "find out"), leave("The drafter shows it", true, "drafter")];
  return make("div", { class: "more-of-it" }, make("details", {}, make("summary", {}, "Why it is asked"), make("ul", {}, ...ask.why.map((line) => make("li", {}, line)))),
    ...(ask.rule_out ? [ruledOut(ask, hooks)] : []), ...later);
}

/** A fact that the file gives twice and not alike, with a button for each way to make it agree. */
export function twice(fact, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const send = (way) => async () => { refused.textContent = await hooks.act({ do: "agree", part: fact.part, fact: fact.said, way }); };
  return make("div", { class: "ask twice", role: "group", "aria-label": "Given twice" }, make("p", { class: "asked" }, `Given twice, and not alike: ${fact.said}`),
    make("p", { class: "more-of-it" }, ...fact.ways.map((said, way) => make("button", { type: "button", onclick: send(way) }, said))), refused);
}

function ruledOut(ask, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const reason = make("input", { "aria-label": `Why ${ask.rule_out} is not in this job`, placeholder: "why not, in a few words", autocomplete: "off" });
  const send = async (event) => {
    event.preventDefault();
    refused.textContent = await hooks.act({ do: "rule out", what: ask.rule_out, why: reason.value });
  };
  return make("details", {}, make("summary", {}, "Not in this job"), make("form", { class: "two", onsubmit: send }, reason, make("button", { type: "submit" }, "Say so")), refused);
}

/** Take a choice as soon as it is made by hand; by keys, which pass over the others on their way, with Enter or on leaving it. */
export function taken(input, send) {
  if (!input.matches("select")) return input.addEventListener("change", send);
  let byHand = false;
  input.addEventListener("pointerdown", () => { byHand = true; });
  input.addEventListener("keydown", (event) => {
    byHand = false;
    if (event.key === "Enter") { event.preventDefault(); send(); }
  });
  input.addEventListener("change", () => byHand && send());
  return input.addEventListener("blur", send);
}

/** A field with what it is called, how it is measured, what is usual, and a picture where there is something to see. */
export function explained(field, input, optional = false) {
  const node = labeled(`${field.called}${optional ? " (if known)" : ""}`, input);
  const usual = field.usual ? `Usually ${field.usual}.` : "";
  const how = [field.how, usual].filter(Boolean).join(" ");
  return make("div", { class: "field" }, node, how ? make("p", { class: "how" }, how) : "", field.picture ? picture(field.picture) : "");
}

function byField(ask, page, hooks, about, same) {
  const refused = make("p", { class: "refused", role: "alert" });
  let sent = false;
  const { fields } = ask.field;
  const asked = fields.length ? fields : [ask.field];
  const inputs = asked.map((field) => [field, control(field, "", `${ask.item}/${ask.need}/${field.label}`)]);
  const send = async (event) => {
    event.preventDefault();
    if (sent) return;
    sent = true; // leaving a field that is answered tells of it once more
    const values = Object.fromEntries(inputs.map(([field, input]) => [field.label, input.value]));
    const told = await hooks.act({ do: "answer", item: ask.item, need: ask.need, value: fields.length ? "" : inputs[0][1].value, values: fields.length ? values : {}, also: ask.one_answer ? same.ids() : [] });
    sent = !told;
    answerTo(page, told, refused, inputs.map(([, input]) => input));
  };
  const lone = !fields.length && inputs[0][1].matches("select") ? inputs[0][1] : null;
  if (lone) taken(lone, () => lone.value && lone.form.requestSubmit());
  const single = fields.length ? "" : [about, ask.field.called].filter(Boolean).join(": ");
  return make("form", { onsubmit: send, class: single ? "single" : "" }, ...inputs.map(([field, input]) => explained(single ? { ...field, called: single } : field, input, fields.length && !field.required)),
    same.node, make("button", { type: "submit" }, "Enter"), refused);
}

/** What takes more than one value: the fields of each part to add. Examples stand in the fields as hints, never as values. */
function byParts(ask, page, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const named = ask.parts.map((part, n) => part.fields.map((field) => [`${n}/${field.label}`, field, control(field, "", `${ask.item}/${ask.need}/${n}/${field.label}`)]));
  const inputs = named.flat();
  const send = async (event) => {
    event.preventDefault();
    const values = Object.fromEntries(inputs.map(([name, , input]) => [name, input.value]));
    answerTo(page, await hooks.act({ do: "answer", item: ask.item, need: ask.need, values }), refused, inputs.map(([, , input]) => input));
  };
  return make("form", { onsubmit: send }, ...ask.parts.flatMap((part, n) => [
    part.label && ask.parts.length > 1 ? make("p", { class: "asked" }, part.label) : "",
    ...named[n].map(([, field, input]) => explained(field, input))]), make("button", { type: "submit" }, "Enter"), refused);
}

const READ = { "a length with its unit": "height", "width x height": "opening size" };

export function control(field, value, name) {
  if (field.choices.length && !field.several) {
    const choices = ["", ...field.choices];
    if (value && !choices.includes(value)) choices.push(value);
    const node = make("select", { "data-field": name }, ...choices.map((one) => make("option", { value: one }, field.choices_called[one] ?? (one || "not shown"))));
    node.value = value;
    return node;
  }
  if (field.several && field.choices.length && field.choices.length < 13) return ticks(field, value, name);
  const list = field.several && field.choices.length ? field.choices.join(", ") : "";
  return reads(make("input", { "data-field": name, value, autocomplete: "off", placeholder: field.example || list.slice(0, 60), title: list || field.form }), READ[field.form]);
}

/** Several of a few choices, as boxes to tick; it has a value as an input has. */
function ticks(field, value, name) {
  const given = value.split(",").map((one) => one.trim());
  const node = make("span", { class: "ticks", role: "group", "aria-label": field.called, "data-field": name }, ...field.choices.map((one) =>
    make("label", {}, make("input", { type: "checkbox", value: one, checked: given.includes(one) }), ` ${one}`)));
  Object.defineProperty(node, "value", { get: () => [...node.querySelectorAll(":checked")].map((one) => one.value).join(", ") });
  return node;
}
