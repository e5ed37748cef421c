// The form for the picture behind the sketch: to send one, set it to scale, turn, move, fade, hide and take it out.

import { keepFocus } from "./focus.js";
import { answerTo, feet, make } from "./make.js";
import * as net from "./net.js";
import { PICKS, Under } from "./underlay.js";

const MOST = 40_000_000; // bytes; the board takes no more
const KINDS = ".pdf,.jpg,.jpeg,.png,.webp,application/pdf,image/jpeg,image/png,image/webp";
const STANDS = { pdf: "the PDF", jpg: "the photo", png: "the scan", webp: "the picture" };
const WORDS = { scale: "Set to scale", level: "Make it level", check: "Check a distance", point: "Lay a point on the sketch", move: "Move it" };

/** The picture and its form; `hooks` are what the page does with what comes of it. */
export function tracing(plan, page, { show, tell, ended }) {
  let refused = "";
  const node = () => document.getElementById("part");
  const under = new Under(plan, page, { show, tell, picked, panel, place });
  plan.over = under;
  dropping(sent);

  function panel(focus = false) {
    if (page.draft?.what !== "underlay") return;
    const back = keepFocus(node());
    const { is } = under;
    node().replaceChildren(make("h2", {}, "A plan to trace over"), ...(page.state.underlay.problem ? [make("p", { class: "refused" }, page.state.underlay.problem)] : []),
      ...(is ? there(is) : none()), make("p", { class: "refused", role: "alert" }, refused));
    back();
    if (focus) node().querySelector("[data-field=scale]")?.focus();
  }

  /** Ask for a change of the picture behind this story; return why it was refused, or an empty text. */
  async function place(what) {
    try {
      return taken(await net.act(what.do === "back" ? what : { story: page.story, ...what }, "underlay"));
    } catch {
      ended();
      return "This page has ended.";
    }
  }

  function taken(found) {
    refused = found.refused ?? "";
    Object.assign(page, { meant: found.meant ?? [], typed: found.typed ?? "" });
    if (found.underlay) page.state.underlay = found.underlay;
    if (!refused) tell("Saved.");
    under.seen = undefined;
    show();
    return refused;
  }

  async function sent(file) {
    if (!file) return;
    Object.assign(page, { tool: "underlay", draft: { what: "underlay" }, tab: "part" });
    refused = file.size > MOST ? "That is over 40 MB; make it smaller, or save the one page that is needed." : "";
    if (!refused) {
      under.end();
      tell("The picture is being read.");
      try {
        taken(await net.send(page.story, file));
      } catch {
        refused = "It did not get through; send it again.";
      }
      plan.fit();
    }
    show();
    panel();
    if (refused) tell(refused);
  }

  async function picked(what, points) {
    const pixels = points.map((one) => one.pixel);
    if (what === "level") await place({ do: "level", points: pixels });
    if (what === "point") await place({ do: "move", by: [0, 1].map((n) => points[1].plan[n] - points[0].plan[n]) });
    if (!["scale", "check"].includes(what)) under.end();
    panel();
    if (what !== "scale") return;
    page.tab = "part";
    show();
    node().querySelector("[data-field=distance]")?.focus();
  }

  async function changed(what) {
    await place(what);
    panel();
  }

  const button = (text, onclick, more = {}) => make("button", { type: "button", "data-field": text, onclick, ...more }, text);
  const pick = (what) => button(WORDS[what], () => { under.start(what); panel(); }, { "aria-pressed": String(under.picking === what), "data-field": what });

  function none() {
    const story = page.state.plan.stories.find((one) => one.id === page.story);
    return [make("p", {}, `A page of a PDF, a photo or a scan of the plan, to lie behind the sketch of: ${story?.label ?? "the plan"}. Drop it on the plan, or choose it here.`),
      choosing("Choose a PDF, JPEG, PNG or WebP"), ...others(), make("p", { class: "soft" }, `It is kept on this computer, in the folder ${page.state.file.replace(/\.[^.]*$/, "")}.board beside the project file.`)];
  }

  function choosing(label) {
    return make("label", { class: "labeled" }, make("span", {}, label), make("input", { type: "file", accept: KINDS, "data-field": "file", onchange: (event) => sent(event.target.files[0]) }));
  }

  function others() {
    const sources = page.state.underlay.sources.filter((one) => one.number !== under.is?.source || !under.is);
    return sources.map((one) => form("Lay it here", [field("page", `Page of ${STANDS[one.kind]} that is here, 1 to ${one.pages}`, "1")], (input) => ({ do: "use", source: one.number, page: Number(input.page.value) || 0 })));
  }

  function there(is) {
    const source = page.state.underlay.sources.find((one) => one.number === is.source);
    return [make("p", { class: is.to_scale ? "soft" : "call" }, is.to_scale ? "It is set to scale." : "It is not to scale yet. Set it to scale before tracing: two points, and what is between them."),
      make("p", { class: "buttons" }, ...Object.keys(WORDS).map(pick)), ...picking(),
      ...(source?.pages > 1 ? [pages(is, source)] : []),
      make("div", {}, make("label", { class: "range" }, make("span", {}, "How strong"), make("input", { type: "range", min: 5, max: 100, value: is.seen, "data-field": "seen",
        oninput: (event) => { under.seen = Number(event.target.value); plan.show(); }, onchange: (event) => changed({ do: "see", seen: Number(event.target.value), hidden: is.hidden }) })),
      make("label", { class: "tick" }, make("input", { type: "checkbox", "data-field": "hidden", checked: is.hidden, onchange: (event) => changed({ do: "see", seen: is.seen, hidden: event.target.checked }) }), " Hide it")),
      form("Turn", [field("angle", "Degrees to the left", String(Number(is.angle.toFixed(3))))], (input) => ({ do: "turn", angle: input.angle.value })),
      make("p", { class: "buttons" }, button("A quarter to the left", () => changed({ do: "turn", angle: String(is.angle + 90) })), button("A quarter to the right", () => changed({ do: "turn", angle: String(is.angle - 90) }))),
      form("Move", [field("right", "To the right", "", "2 ft"), field("up", "Up", "", "-6 in")], (input) => ({ do: "move", right: input.right.value, up: input.up.value })),
      make("p", { class: "buttons" }, button("Take the last back", () => changed({ do: "back" }), { disabled: !page.state.underlay.back }), button("Take the picture out", () => changed({ do: "remove" }))),
      choosing("Another picture in its place"),
      make("p", { class: "soft" }, "A photo taken at an angle is true only near the two points. Nothing of the picture goes into the file: what is traced does.")];
  }

  function picking() {
    if (under.picking === "scale" && under.points.length === 2)
      return [form("Set it", [field("distance", "What is between the two points", "", "14'-2\"")], (input) => ({ do: "scale", points: under.points.map((one) => one.pixel), distance: input.distance.value }), () => { under.end(); plan.fit(); })];
    if (under.picking === "check" && under.points.length === 2) {
      const [[ax, ay], [bx, by]] = under.points.map((one) => one.plan);
      const between = feet(Math.hypot(bx - ax, by - ay));
      tell(`Between them: ${between}.`);
      return [make("p", { class: "call" }, `Between them, as the picture lies now: ${between}. If the plan says otherwise, it is not true to scale there.`)];
    }
    const told = PICKS[under.picking]?.[under.points.length];
    return told ? [make("p", { class: "call" }, told)] : [];
  }

  function pages(is, source) {
    const go = (number) => changed({ do: "use", source: source.number, page: number });
    return make("div", { class: "buttons" }, form("Show", [field("page", `Page, 1 to ${source.pages}`, String(is.page))], (input) => ({ do: "use", source: source.number, page: Number(input.page.value) || 0 })),
      button("Page before", () => go(is.page - 1), { disabled: is.page <= 1 }), button("Next page", () => go(is.page + 1), { disabled: is.page >= source.pages }));
  }

  const field = (name, label, value, placeholder = "") => [name, label, make("input", { "data-field": name, value, placeholder, autocomplete: "off" })];

  function form(act, fields, what, after) {
    const told = make("p", { class: "refused", role: "alert" });
    const inputs = Object.fromEntries(fields.map(([name, , input]) => [name, input]));
    const send = async (event) => {
      event.preventDefault();
      const why = await place(what(inputs));
      answerTo(page, why, told, Object.values(inputs));
      refused = "";
      if (why) return;
      after?.();
      panel();
    };
    return make("form", { class: `value row of-${fields.length}`, onsubmit: send }, ...fields.map(([, label, input]) => make("label", {}, make("span", {}, label), input)), make("button", { type: "submit" }, act), told);
  }

  return { under, panel };
}

function dropping(sent) {
  const is = (event) => [...(event.dataTransfer?.types ?? [])].includes("Files");
  addEventListener("dragover", (event) => { if (is(event)) event.preventDefault(); });
  addEventListener("drop", (event) => {
    if (!is(event)) return;
    event.preventDefault(); // or the browser would leave the page for the picture
    if (!document.getElementById("work").hidden) sent(event.dataTransfer.files[0]);
  });
}
