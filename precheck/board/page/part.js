// The values of what is chosen, its questions first; or what is being drawn, as a form.

import { drafting } from "./drafting.js";
import { townLetter } from "./letter.js";
import { keepFocus } from "./focus.js";
import { answerTo, make } from "./make.js";
import * as net from "./net.js";

let turn = 0;

export async function showPart(node, page, hooks, focus = false) {
  const mine = ++turn;
  if (page.draft?.what === "letter") return page.draft.shown ? undefined : (page.draft.shown = true, townLetter(node, page, hooks));
  if (page.draft) return drafting(node, page, hooks);
  const refocus = keepFocus(node);
  const found = await net.form(page.chosen);
  if (mine !== turn || page.draft) return undefined;
  const part = page.state.parts?.[page.chosen];
  node.replaceChildren(
    make("h2", {}, page.chosen ? found.label : "This job"),
    part ? make("p", { class: "soft" }, `line ${found.line} of ${page.state.file}`) : make("p", { class: "soft" }, "Choose a part on the plan to see its values."),
    ...place(page, hooks, part),
    ...(found.asks.length ? [make("h3", {}, `Not shown yet (${found.asks.length})`), ...found.asks.map((ask) => question(ask, page, hooks))] : []),
    ...(found.values.length ? [make("h3", {}, "Values")] : []),
    ...found.values.map((value) => valueField(found.part, value, page, hooks)),
    ...(found.more.length ? [more(found, page, hooks)] : []),
    ...(part ? [make("p", {}, make("button", { type: "button", onclick: () => hooks.act({ do: "take out", part: page.chosen }) }, "Take it out"))] : []),
  );
  if (focus) (node.querySelector("[data-field]") ?? node.querySelector("input, select, button"))?.focus();
  else refocus();
  return undefined;
}

function place(page, hooks, part) {
  const lacking = page.state.plan?.loose.find((one) => one.id === page.chosen);
  const room = page.state.plan?.rooms.find((one) => one.id === page.chosen);
  if (!part || (!room && lacking?.lacks !== "rectangle")) {
    if (lacking?.lacks === "middle") return [make("p", { class: "call" }, "To place it: choose ", tool(page, hooks, lacking), " and click its wall.")];
    return lacking?.lacks === "room" ? [make("p", { class: "call" }, "It is placed once its room is drawn.")] : [];
  }
  if (room && !room.is_box) return [];
  const refused = make("p", { class: "refused", role: "alert" });
  const size = make("input", { "aria-label": "Size in plan", "data-field": "size in plan", placeholder: "11'-4\" x 14'-0\"", value: room?.size ?? "", autocomplete: "off" });
  const others = page.state.plan.rooms.filter((one) => one.id !== page.chosen && one.story === (room?.story ?? one.story));
  const beside = make("select", { "aria-label": "Beside" }, make("option", { value: "" }, room ? "where it is" : others.length ? "to the right of all" : "as the first room"),
    ...others.map((one) => make("option", { value: one.id }, `beside ${one.name}`)));
  const side = make("select", { "aria-label": "On which side" }, ...["east", "north", "west", "south"].map((one) => make("option", {}, one)));
  const send = async (event) => {
    event.preventDefault();
    answerTo(page, await hooks.act({ do: "shape", part: page.chosen, size: size.value, beside: beside.value, side: side.value }), refused, [size]);
  };
  return [make("form", { class: "value", onsubmit: send }, make("label", {}, make("span", {}, "Size in plan"), size), make("span", { class: "two" }, beside, side),
    make("button", { type: "submit" }, room ? "Change" : "Place it"), refused)];
}

function tool(page, hooks, lacking) {
  return make("button", { type: "button", onclick: () => { page.placing = lacking.id; document.querySelector(`[data-tool="${lacking.kind}"]`).click(); } }, `Place ${lacking.name}`);
}

export function question(ask, page, hooks) {
  const why = make("div", {}, make("details", {}, make("summary", {}, "Why it is asked"), make("ul", {}, ...ask.why.map((line) => make("li", {}, line)))),
    ...(ask.rule_out ? [ruledOut(ask, hooks)] : []));
  if (ask.parts.length) return byParts(ask, page, hooks, why);
  if (!ask.field) {
    const lines = ask.by_hand ? [make("p", { class: "soft" }, `Add ${ask.by_hand.where}, such as:`), make("pre", {}, ask.by_hand.lines.join("\n"))] : [];
    return make("div", { class: "ask" }, make("p", { class: "asked" }, ask.asked), ...lines, why);
  }
  const refused = make("p", { class: "refused", role: "alert" });
  const fields = ask.field.fields.length ? ask.field.fields : [ask.field];
  const inputs = fields.map((field) => [field, control(field, "", `${ask.item}/${ask.need}/${field.label}`)]);
  if (!ask.field.fields.length) inputs[0][1].setAttribute("aria-label", ask.asked);
  const send = async (event) => {
    event.preventDefault();
    const values = Object.fromEntries(inputs.map(([field, input]) => [field.label, input.value]));
    const single = !ask.field.fields.length;
    const told = await hooks.act({ do: "answer", item: ask.item, need: ask.need, value: single ? inputs[0][1].value : "", values: single ? {} : values });
    answerTo(page, told, refused, inputs.map(([, input]) => input));
  };
  return make("form", { class: "ask", onsubmit: send }, make("p", { class: "asked" }, ask.asked),
    ask.field.known.length ? make("p", { class: "soft" }, `New under ${ask.field.label}: ${ask.field.known.join(", ")}`) : "",
    ...inputs.map(([field, input]) => labeled(fields.length > 1 ? `${field.label}${field.required ? "" : " (if known)"}` : field.form, input)),
    make("button", { type: "submit" }, "Enter"), refused, why);
}

function ruledOut(ask, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const reason = make("input", { "aria-label": `Why ${ask.rule_out} is not in this job`, placeholder: "why not, in a few words", autocomplete: "off" });
  const send = async () => { refused.textContent = await hooks.act({ do: "rule out", what: ask.rule_out, why: reason.value }); };
  return make("details", {}, make("summary", {}, "Not in this job"), make("p", { class: "two" }, reason, make("button", { type: "button", onclick: send }, "Say so")), refused);
}

/** What takes more than one value: the fields of each part to add. Examples stand in the fields as hints, never as values. */
function byParts(ask, page, hooks, why) {
  const refused = make("p", { class: "refused", role: "alert" });
  const inputs = ask.parts.flatMap((part, n) => part.fields.map((field) => [`${n}/${field.label}`, control(field, "", `${ask.item}/${ask.need}/${n}/${field.label}`)]));
  const named = new Map(inputs);
  const send = async (event) => {
    event.preventDefault();
    const values = Object.fromEntries(inputs.map(([name, input]) => [name, input.value]));
    answerTo(page, await hooks.act({ do: "answer", item: ask.item, need: ask.need, values }), refused, inputs.map(([, input]) => input));
  };
  return make("form", { class: "ask", onsubmit: send }, make("p", { class: "asked" }, ask.asked), ...ask.parts.flatMap((part, n) => [
    part.label ? make("p", { class: "soft" }, `${part.label}${part.known.length ? ` (${part.known.join(", ")})` : ""}`) : "",
    ...part.fields.map((field) => labeled(field.label, named.get(`${n}/${field.label}`)))]),
  make("button", { type: "submit" }, "Enter"), refused, why);
}

function valueField(part, value, page, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const input = control(value, value.value, value.key);
  let sent = value.value;
  const send = async () => {
    if (input.value === sent) return; // Enter tells of the change, and then of the form
    sent = input.value;
    answerTo(page, await hooks.act({ do: "set", part, key: value.key, value: input.value }), refused, [input]);
  };
  input.addEventListener("change", send);
  return make("form", { class: "value", onsubmit: (event) => { event.preventDefault(); send(); } },
    labeled(value.key, input), refused);
}

const labeled = (text, input) => make(input.matches("input, select") ? "label" : "div", { class: "labeled" }, make("span", {}, text), input);

function control(field, value, name) {
  if (field.choices.length && !field.several) {
    const choices = ["", ...field.choices];
    if (value && !choices.includes(value)) choices.push(value);
    const node = make("select", { "data-field": name }, ...choices.map((one) => make("option", { value: one }, one || "not shown")));
    node.value = value;
    return node;
  }
  if (field.several && field.choices.length && field.choices.length < 13) return ticks(field, value, name);
  const list = field.several && field.choices.length ? field.choices.join(", ") : "";
  return make("input", { "data-field": name, value, autocomplete: "off", placeholder: field.example || list.slice(0, 60), title: list || field.form });
}

/** Several of a few choices, as boxes to tick; it has a value as an input has. */
function ticks(field, value, name) {
  const given = value.split(",").map((one) => one.trim());
  const node = make("span", { class: "ticks", role: "group", "aria-label": field.label, "data-field": name }, ...field.choices.map((one) =>
    make("label", {}, make("input", { type: "checkbox", value: one, checked: given.includes(one) }), ` ${one}`)));
  Object.defineProperty(node, "value", { get: () => [...node.querySelectorAll(":checked")].map((one) => one.value).join(", ") });
  return node;
}

function more(found, page, hooks) {
  const choice = make("select", { "aria-label": "Another value" }, make("option", { value: "" }, "another value..."), ...found.more.map((key) => make("option", {}, key)));
  const input = make("input", { "aria-label": "The value", autocomplete: "off" });
  const refused = make("p", { class: "refused", role: "alert" });
  const send = async (event) => {
    event.preventDefault();
    if (choice.value) answerTo(page, await hooks.act({ do: "set", part: found.part, key: choice.value, value: input.value }), refused, [input]);
  };
  return make("form", { class: "value", onsubmit: send }, make("span", { class: "two" }, choice, input), make("button", { type: "submit" }, "Enter"), refused);
}
