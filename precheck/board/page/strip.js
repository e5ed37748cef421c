// The strip over the plan: stories, tools, and what is in the file and not on the plan yet.

import { keepFocus } from "./focus.js";
import { make } from "./make.js";

export const TOOLS = [
  ["select", "Select", "Click a part to see its values. Drag a wall of a room (with Alt only the part toward its nearer corner), or a door along its wall."],
  ["room", "Room", "Drag a room on the grid, or type its size on the right."],
  ["door", "Door", "Click the wall that the door is in, or choose it on the right."],
  ["window", "Window", "Click the wall that the window is in, or choose it on the right."],
  ["vehicle door", "Vehicle door", "Click the wall that the vehicle door is in, or choose it on the right."],
  ["stair", "Stair", "Drag the stair from its foot to its head, or type it on the right."],
  ["hole", "Floor opening", "Drag the opening through the floor, or type it on the right; over a stair it can be as the stair is."],
  ["post", "Post", "Click where the post stands; in a wall, it is measured from its corner."],
  ["beam", "Beam", "Drag a beam from support to support, click the wall it is in, or click the opening that a header is over."],
  ["alarm", "Alarm", "Click the room where the alarm hangs."],
  ["light", "Light", "Click where the light is."],
  ["receptacle", "Receptacle", "Click where the receptacle is, close to its wall."],
  ["fixture", "Fixture", "Choose the fixture, then click where its middle is."],
  ["appliance", "Appliance", "Choose the appliance, then click where its middle is."],
  ["exhaust", "Fan", "Choose the fan or hood, then click where it is."],
  ["panel", "Panel", "Click where the panel is, close to its wall."],
  ["underlay", "Trace a plan", "A PDF page, photo or scan of the plan lies behind the sketch; drag moves the view."],
];
export const HINTS = Object.fromEntries(TOOLS.map(([name, , hint]) => [name, hint]));

export function stories(node, page, { show, parts }) {
  node.replaceChildren(...page.state.plan.stories.map((one) =>
    make("button", { type: "button", "aria-pressed": String(one.id === page.story), onclick: () => { page.story = one.id; show(); } },
      one.label)), page.readOnly ? "" : make("button", { type: "button", "data-tool": "story", "aria-pressed": String(page.draft?.what === "story"),
    onclick: async () => { page.draft = { what: "story" }; page.tab = page.tab === "plan" && document.getElementById("tabs").offsetParent ? "part" : page.tab; show(); await parts(); } }, "+ Story"));
}

export function tools(node, page, { show, parts }) {
  node.replaceChildren(...TOOLS.map(([name, label]) =>
    make("button", { type: "button", "aria-pressed": String(name === page.tool), "data-tool": name,
      onclick: async () => {
        page.tool = name;
        page.draft = name === "select" ? null : { what: name };
        if (name === "select") page.placing = "";
        if (name === "underlay") page.tab = "part"; // where a picture is sent; there is nothing to click before
        show();
        await parts();
      } }, label)));
  const hint = document.getElementById("hint");
  hint.textContent = page.hint || HINTS[page.tool];
  hint.className = "";
}

const THINGS = ["stairs", "alarms", "lights", "receptacles", "fixtures", "appliances", "exhausts", "panels", "members"];
const CALLED = { exhausts: "fans", members: "posts and beams" };

const waiting = new Map(); // what was ticked and is not answered yet: the next tick goes on from there

const toggled = (list, one, on) => (on ? [...new Set([...list, one])] : list.filter((other) => other !== one));

/** Ask for what is wanted now; once it is answered, or refused, what the file says is shown. */
async function ask(name, wanted, send, again) {
  waiting.set(name, wanted);
  await send(wanted);
  if (waiting.get(name) !== wanted) return;
  waiting.delete(name);
  again();
}

/** What of the story is drawn completely: until it is ticked, what is not there is not drawn yet, and no finding takes it for none. */
export function complete(node, page, { act }) {
  const story = page.state.plan.stories.find((one) => one.id === page.story);
  node.hidden = !story?.id || (!story.drawn && !story.to_draw.length);
  if (node.hidden) return;
  const open = node.querySelector("details")?.open ?? story.to_draw.length > 0;
  const drawn = () => waiting.get(`drawn/${story.id}`) ?? story.drawn;
  const toDraw = () => waiting.get(`things/${story.id}`) ?? story.to_draw;
  const again = () => { const refocus = keepFocus(node); complete(node, page, { act }); refocus(); };
  const box = (name, what, checked, send) => make("label", {}, make("input", { type: "checkbox", name, value: what, checked, onchange: send }), ` all ${CALLED[what] ?? what}`);
  const send = ({ target }) => ask(`drawn/${story.id}`, toggled(drawn(), target.value, target.checked), (what) => act({ do: "drawn", story: story.id, what }), again);
  const sendThings = ({ target }) => ask(`things/${story.id}`, toggled(toDraw(), target.value, !target.checked), (to_draw) => act({ do: "drawn", story: story.id, to_draw }), again);
  node.replaceChildren(make("legend", {}, "All drawn on this story?"),
    ...(story.drawn ? ["rooms", "doors", "windows"].map((what) => box("drawn", what, drawn().includes(what), send)) : []),
    make("details", { open }, make("summary", {}, story.to_draw.length ? `${story.to_draw.length} more still to draw` : "And what stands in it"),
      make("p", { class: "soft" }, "What is not on the plan is taken for none. Untick what is still to come."),
      make("span", { class: "phase things" }, ...THINGS.map((what) => box("things", what, !toDraw().includes(what), sendThings)))));
}

const toTrace = () => make("p", {}, "Have the plan on paper, as a PDF or a photo? ",
  make("button", { type: "button", onclick: () => document.querySelector("[data-tool=underlay]").click() }, "Trace it"), " Or go on without.");

const LACKS = { rectangle: " needs its size", place: " needs its place", room: " waits for its room", middle: " needs its place in a wall" };

export function loose(node, page, { choose }) {
  const found = page.state.plan.loose;
  const invited = !page.state.plan.rooms.length && !Object.keys(page.state.underlay.stories).length;
  node.hidden = !found.length && !invited;
  const one = (part) => make("li", {}, make("button", { type: "button", onclick: () => choose(part.id, true) }, part.name), LACKS[part.lacks] ?? LACKS.middle);
  node.replaceChildren(...(invited ? [toTrace()] : []), ...(found.length ? [make("h2", {}, `Not on the plan yet (${found.length})`), make("ul", {}, ...found.map(one))] : []));
}

/** What to do next, in a sentence, with a button that goes there. */
export function next(node, page, { choose, show, act, parts }) {
  const step = page.state.next;
  node.hidden = !step?.said;
  if (node.hidden) return;
  const go = () => {
    if (step.choose) choose(step.choose, true);
    else if (step.tool) {
      page.story = step.story;
      document.querySelector(`[data-tool="${step.tool}"]`)?.click();
    } else if (step.handouts) document.getElementById("handouts").open = true;
    else if (step.need !== undefined) {
      Object.assign(page, { draft: { what: "questions" }, chosen: step.of, tool: "select", tab: "part" });
      show();
      parts();
    } else {
      if (document.getElementById("tabs").offsetParent) { page.tab = "todo"; show(); }
      const found = document.querySelector(`#todo [data-item="${step.item}"]`);
      if (!found) return;
      found.open = true;
      found.scrollIntoView({ block: "start" });
      found.querySelector("summary").focus();
    }
  };
  node.replaceChildren(make("span", {}, make("b", {}, "Next: "), step.said), make("button", { type: "button", onclick: go }, step.handouts ? "Hand out" : step.need === undefined ? "Go there" : "Answer"), ...rest(step, act));
}

/** What one does not say oneself is the drafter's, by one press, and can be taken back. */
function rest(step, act) {
  const leave = (said, left) => make("button", { type: "button", class: "rest", onclick: () => act({ do: "leave the rest", left }) }, said);
  if (step.rest) return [leave(step.rest === 1 ? "Leave it to the drafter" : `Leave all ${step.rest} open things to the drafter`, true)];
  return step.given ? [leave("Take up again what was left to the drafter", false)] : [];
}
