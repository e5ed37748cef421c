// The values of what is chosen, its questions first; or what is being drawn, as a form.

import { drafting } from "./drafting.js";
import { townLetter } from "./letter.js";
import { keepFocus } from "./focus.js";
import { answerTo, make, reads } from "./make.js";
import { shapeForms, works } from "./shapes.js";
import { placed } from "./tray.js";
import * as net from "./net.js";
import { control, explained, question, taken, twice } from "./question.js";

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
    ...(found.twice ?? []).map((fact) => twice(fact, hooks)),
    ...place(page, hooks, part),
    ...(found.asks.length ? [make("h3", {}, `Not shown yet (${found.asks.filter((ask) => !ask.later).length})`), ...found.asks.map((ask) => question(ask, page, hooks, ask.of === page.chosen ? "" : page.state.parts[ask.of]?.label ?? ""))] : []),
    values(found, page, hooks),
    ...(part ? [make("p", {}, make("button", { type: "button", onclick: () => hooks.act({ do: "take out", part: page.chosen }) }, "Take it out"))] : []),
  );
  if (focus) (node.querySelector("input[data-field], select[data-field]") ?? node.querySelector("input, select, button"))?.focus();
  else refocus();
  return undefined;
}

function place(page, hooks, part) {
  const lacking = page.state.plan?.loose.find((one) => one.id === page.chosen);
  const room = page.state.plan?.rooms.find((one) => one.id === page.chosen);
  if (!part || (!room && lacking?.lacks !== "rectangle")) {
    if (lacking?.lacks === "place") return [make("p", { class: "call" }, "To place it: ", tool(page, hooks, lacking), " Then click or drag on the plan, or type its place.")];
    if (lacking?.lacks === "middle") return [make("p", { class: "call" }, "To place it: choose ", tool(page, hooks, lacking), " and click its wall.")];
    if (lacking?.lacks === "room") return [make("p", { class: "call" }, "It is placed once its room is drawn.")];
    return part ? placed(page, hooks, part) : [];
  }
  if (room && !room.is_box) return shapeForms(page, hooks, room);
  const refused = make("p", { class: "refused", role: "alert" });
  const size = reads(make("input", { "aria-label": "Size in plan", "data-field": "size in plan", placeholder: "11'-4\" x 14'-0\"", value: room?.size ?? "", autocomplete: "off" }), "room size");
  const others = page.state.plan.rooms.filter((one) => one.id !== page.chosen && one.story === (room?.story ?? one.story));
  const beside = make("select", { "aria-label": "Beside" }, make("option", { value: "" }, room ? "where it is" : others.length ? "to the right of all" : "as the first room"),
    ...others.map((one) => make("option", { value: one.id }, `beside ${one.name}`)));
  const side = make("select", { "aria-label": "On which side" }, ...["east", "north", "west", "south"].map((one) => make("option", {}, one)));
  const send = async (event) => {
    event.preventDefault();
    const work = Boolean(room) && works(page, room) && size.value !== room.size;
    answerTo(page, await hooks.act({ do: "shape", part: page.chosen, size: size.value, beside: beside.value, side: side.value, work }), refused, [size]);
  };
  return [make("form", { class: "value", onsubmit: send }, make("label", {}, make("span", {}, "Size in plan"), size), make("span", { class: "two" }, beside, side),
    make("button", { type: "submit" }, room ? "Change" : "Place it"), refused), ...(room ? shapeForms(page, hooks, room) : [])];
}

function tool(page, hooks, lacking) {
  const name = lacking.kind === "member" ? (lacking.role === "post" ? "post" : "beam") : lacking.kind;
  return make("button", { type: "button", onclick: () => { page.placing = lacking.id; document.querySelector(`[data-tool="${name}"]`).click(); } }, `Place ${lacking.name}`);
}

/** All its values: open where nothing is asked or one is wrong, else kept shut, for what is asked comes first. */
function values(found, page, hooks) {
  const wrong = page.state.parts[found.part]?.counts.fail;
  const open = page.valuesOpen === found.part || wrong || !found.asks.some((ask) => !ask.later);
  return make("details", { open: Boolean(open), "data-item": "values", ontoggle: (event) => { page.valuesOpen = event.target.open ? found.part : null; } },
    make("summary", {}, `Values (${found.values.filter((one) => one.value).length})`),
    ...found.values.map((value) => valueField(found.part, value, page, hooks)), ...(found.more.length ? [more(found, page, hooks)] : []));
}

export function valueField(part, value, page, hooks, about = "") {
  const refused = make("p", { class: "refused", role: "alert" });
  const input = control(value, value.value, value.key);
  let sent = value.value;
  const send = async () => {
    if (input.value === sent) return; // Enter tells of the change, and then of the form
    sent = input.value;
    answerTo(page, await hooks.act({ do: "set", part, key: value.key, value: input.value }), refused, [input]);
  };
  taken(input, send);
  return make("form", { class: "value", onsubmit: (event) => { event.preventDefault(); send(); } },
    explained(about ? { ...value, called: `${about}: ${value.called}` } : value, input), refused);
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
