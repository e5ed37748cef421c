// The first page: the kind of job, what is in it, where and when.

import { answerTo, make } from "./make.js";

let shown = false;

export function begin(node, page, act) {
  if (shown) return;
  shown = true;
  const { state } = page;
  const offered = state.begin;
  const refused = make("p", { class: "refused", role: "alert" });
  const room = make("div", {}, field("What does it become?", select("room", offered.rooms)));
  const remains = make("p", {}, make("label", {}, make("input", { type: "checkbox", name: "remains" }), " Part of the garage stays a garage"));
  const kinds = make("fieldset", {}, make("legend", {}, "What is the job?"), make("div", { class: "ticks" }, ...offered.kinds.map((kind, n) =>
    make("label", {}, make("input", { type: "radio", name: "kind", value: kind, checked: n === 0, onchange: follow }), ` ${kind}`))));
  const form = make("form", { class: "begin", onsubmit: send },
    make("h1", {}, "A new job"),
    make("p", {}, `Nothing is checked yet. The answers go into ${state.file}; the plan is sketched on the next page.`),
    field("What is the job called?", make("input", { name: "name", required: true, placeholder: "14 Mill Lane, garage to bedroom", autocomplete: "off" })),
    kinds, room, remains,
    make("fieldset", {}, make("legend", {}, "What else is in it?"), make("div", { class: "ticks" }, ...offered.more.map((one) => tick("more", one, one, false)))),
    make("fieldset", {}, make("legend", {}, "Trades"), make("p", {}, "Untick a trade that this job does not touch; the file then says that it is not in this job."),
      make("div", { class: "ticks" }, ...offered.trades.map((one) => tick("trade", one.name, one.label, true)))),
    field("Which town?", make("input", { name: "where", list: "places", placeholder: "such as Linden Ford, or a town and its state", autocomplete: "off" })),
    make("datalist", { id: "places" }, ...offered.places.map((one) => make("option", { value: one }))),
    field("If it is not in the list: which code does it use?", select("edition", offered.editions.slice().reverse(),
      (one) => one.replace("irc-", "International Residential Code "))),
    make("p", { class: "soft" }, "You do not know? Leave the town empty: the newest code is taken, and the report says so. Before you submit, ask the building department which edition it uses and what it amends."),
    field("Date of the permit application", make("input", { name: "applied", type: "date", value: offered.today, required: true })),
    refused, make("button", { type: "submit", class: "main" }, "Begin the sketch"),
    make("p", { class: "soft" }, state.reminder));
  node.replaceChildren(form);
  follow();
  form.querySelector("[name=name]").focus();

  function follow() {
    const kind = form.querySelector("[name=kind]:checked").value;
    room.hidden = !offered.with_room.includes(kind);
    remains.hidden = kind !== "garage to room";
  }

  async function send(event) {
    event.preventDefault();
    const given = new FormData(form);
    const ticked = given.getAll("trade");
    const kind = given.get("kind");
    answerTo(page, await act({
      do: "begin", name: given.get("name"), where: given.get("where").trim() || given.get("edition"), applied_on: given.get("applied"), kind,
      inside: given.getAll("more"), room: offered.with_room.includes(kind) ? given.get("room") : "",
      garage_remains: given.get("remains") === "on",
      outside_of_job: offered.trades.map((one) => one.name).filter((one) => !ticked.includes(one)),
    }), refused, [form.elements.where]);
  }
}

const field = (label, input) => make("p", {}, make("label", {}, make("span", {}, label), input));
const tick = (name, value, label, on) => make("label", {}, make("input", { type: "checkbox", name, value, checked: on }), ` ${label}`);
const select = (name, values, shownAs = (one) => one) => make("select", { name }, ...values.map((one) => make("option", { value: one }, shownAs(one))));
