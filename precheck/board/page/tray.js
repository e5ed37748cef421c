// The tray: what can be put on the plan besides rooms, doors and windows. Each is clicked where it goes, or typed.

import { answerTo, feet, make, reads } from "./make.js";
import { named, select, spotFields } from "./spot.js";
import { holds } from "./walls.js";

const THINGS = {
  alarm: ["alarms", "An alarm", ["smoke", "carbon monoxide", "smoke, carbon monoxide"]],
  light: ["lights", "A light", null],
  receptacle: ["receptacles", "A receptacle", null],
  fixture: ["fixtures", "A fixture", ["toilet", "lavatory", "shower", "tub", "tub with shower", "kitchen sink", "clothes washer", "bidet"]],
  appliance: ["appliances", "An appliance", ["water heater", "furnace", "boiler", "air handler", "room heater", "heat pump", "mini-split",
    "air conditioner", "fireplace", "clothes dryer", "range", "other"]],
  exhaust: ["exhausts", "A fan or hood", ["bath fan", "range hood", "other"]],
  panel: ["panels", "The electrical panel", null],
};
const ON_WALL = ["alarm", "light", "receptacle", "panel"];
const ROLES = ["beam", "header", "ridge beam", "trimmer"];
const CLIMBS = [["up the page", "north, up the page"], ["right", "east, to the right"], ["down the page", "south, down the page"], ["left", "west, to the left"]];
const NEAR_WALL = 14; // inches from a wall within which a post or beam is meant to be in it
const phase = () => document.querySelector("[name=phase]:checked").value;
const input = (more) => make("input", { autocomplete: "off", ...more });

const undrawn = (title) => [make("h2", {}, title), make("p", { class: "call" }, "No room is drawn on this story yet. Draw the room first.")];

export function form(page, title, hint, lines, send, inputs) {
  const refused = make("p", { class: "refused", role: "alert" });
  if (!page.state.plan.rooms.some((one) => one.story === page.story)) return undrawn(title);
  let sent = false;
  return [make("h2", {}, title), hint ? make("p", { class: "soft" }, hint) : "", make("form", { class: "value", onsubmit: async (event) => {
    event.preventDefault();
    if (sent) return; // who presses Enter twice puts one
    sent = true;
    const told = await send();
    sent = !told;
    answerTo(page, told, refused, inputs);
  } }, ...lines, make("button", { type: "submit", class: "main" }, "Put it on the plan"), refused)].filter(Boolean);
}

/** A thing: which one, and where; a click on the plan puts the chosen one there. */
export function thing(page, hooks) {
  const { draft } = page;
  const [section, title, kinds] = THINGS[draft.what];
  const which = kinds && select(kinds, { "data-first": true, onchange: () => { page.which = { ...page.which, [draft.what]: which.value }; } });
  if (which) which.value = page.which?.[draft.what] ?? kinds[0];
  if (which) page.which = { ...page.which, [draft.what]: which.value };
  const size = draft.what === "fixture" ? input({ placeholder: "as usual, or 36 in x 36 in" }) : null;
  const spot = spotFields(page, draft, { walls: ON_WALL.includes(draft.what), first: !kinds, to: draft.what === "fixture" ? "its nearer side" : "its middle" });
  return form(page, title, "Click the plan where it goes, or type its place.",
    [which ? named("Which", which) : "", size ? named("Size: across, then up the page", size) : "", ...spot.lines],
    () => hooks.act({ do: "put", section, what: which?.value ?? "", phase: phase(), size: size?.value ?? "", ...spot.read() }), [...spot.inputs, ...(size ? [size] : [])]);
}

/** A stair: width, run and the way it goes up, from which room to which. */
export function stair(page, hooks) {
  const { draft } = page;
  const width = reads(input({ placeholder: "3 ft", "data-first": true, value: draft.width ?? "" }), "distance");
  const run = reads(input({ placeholder: "10'-6\"", value: draft.run ?? "" }), "distance");
  const climbs = select(CLIMBS);
  if (draft.climbs) climbs.value = draft.climbs;
  const stories = new Map(page.state.plan.stories.map((one) => [one.id, one.label]));
  const called = (one) => [one.id, stories.size > 1 ? `${one.name}, ${stories.get(one.story) ?? "plan"}` : one.name];
  const others = page.state.plan.rooms.filter((one) => one.id !== draft.room);
  const above = others.filter((one) => one.story !== page.story);
  const upper = select([["", "choose"], ...[...above, ...others.filter((one) => one.story === page.story)].map(called),
    ...Object.entries(page.state.parts).filter(([id, one]) => one.kind === "space" && !page.state.plan.rooms.some((each) => each.id === id)).map(([id, one]) => [id, `${one.label}, not drawn yet`]),
    ["outside", "outside"]]);
  const order = page.state.plan.stories.map((one) => one.id);
  const higher = above.filter((one) => order.indexOf(one.story) > order.indexOf(page.story));
  if (higher.length === 1) upper.value = higher[0].id; // the one room that is over this story
  const risers = input({ placeholder: "14" });
  const tread = input({ placeholder: "10 in" });
  const spot = spotFields(page, draft, { walls: false, to: "the stair" });
  const part = draft.part || page.placing || "";
  return form(page, part ? `Place of ${page.state.parts[part].label}` : "A stair", "Drag it on the plan, or type it here.",
    [named("Clear width", width), named("Run: all treads together, on the level", run), named("Goes up toward", climbs),
      named("Up to", upper), make("span", { class: "two" }, named("Risers, if known", risers), named("Tread, if known", tread)), ...spot.lines], async () => {
      if (!upper.value) return "Choose the room that it goes up to.";
      const { room, ...from } = spot.read();
      return hooks.act({ do: "stair", lower: room, upper: upper.value, width: width.value, run: run.value, climbs: climbs.value, risers: risers.value, tread: tread.value,
        ...from, phase: phase(), part, ...(draft.at ? { at: draft.at } : {}) });
    }, [width, run, tread, ...spot.inputs]);
}

/** A post, or a beam or header: between two points, along a wall, or over the door or window that was clicked. */
export function member(page, hooks) {
  const { draft } = page;
  const post = draft.what === "post";
  const part = draft.part || page.placing || "";
  const role = post ? null : select(ROLES, {});
  if (role) role.value = draft.opening ? "header" : "beam";
  const size = input({ placeholder: post ? "6x6" : "4x10", "data-first": true });
  const length = reads(input({ placeholder: "8 ft", value: draft.to ? feet(Math.hypot(draft.to[0] - draft.at[0], draft.to[1] - draft.at[1])) : "" }), "distance");
  const spot = draft.opening || draft.to ? null : spotFields(page, draft, { to: post ? "its middle" : "its nearer end" });
  const over = draft.opening ? `Over ${page.state.parts[draft.opening]?.label ?? draft.opening}; it moves with that.` : "";
  const opened = page.state.plan.openings.filter((one) => one.story === page.story);
  const opening = post || draft.opening || draft.to || !opened.length ? null : select([["", "not over one"], ...opened.map((one) => [one.id, `${one.kind} ${one.id}`])]);
  const lines = [role ? named("What", role) : "", named("Size, if known", size), opening ? named("Over a door or window", opening) : "",
    post || draft.opening ? "" : named("From the first support to the last", length), ...(spot?.lines ?? [])];
  return form(page, part ? `Place of ${page.state.parts[part].label}` : post ? "A post" : "A beam or header", over || (post ? "Click the plan where it stands, or type its place." : "Drag it from support to support, click its wall, or type it here."), lines, () => {
    const what = { do: "member", role: role?.value ?? "post", size: size.value, story: page.story, phase: phase(), part };
    const over_ = draft.opening || opening?.value;
    if (over_) return hooks.act({ ...what, opening: over_ });
    if (draft.to) return hooks.act({ ...what, at: draft.at, to: draft.to, length: length.value });
    const found = spot.read();
    if (!post && found.wall === undefined) return "Choose the wall that it is in, or drag it on the plan between its two supports.";
    return hooks.act({ ...what, length: post ? "" : length.value, ...found });
  }, [length, ...(spot?.inputs ?? [])]);
}

/** The place of a thing or post that is in the file, by typed distances; for the panel of the part that is chosen. */
export function placed(page, hooks, part) {
  const { plan } = page.state;
  const there = [...plan.boxes, ...plan.points, ...plan.stairs, ...plan.members].find((one) => one.id === page.chosen);
  if (!there && !THINGS[part.kind]) return [];
  if (there?.role && there.role !== "post") return [];
  const middle = there?.at ?? there?.ends?.[0] ?? there?.box?.slice(0, 2);
  const room = plan.rooms.find((one) => one.id === (there?.room ?? part.room)) ?? (middle && plan.rooms.find((one) => one.story === page.story && holds(one, middle)));
  if (!room) return [];
  const at = { room: room.id, point: middle, boxed: Boolean(there?.box), walls: !there?.box && (ON_WALL.includes(part.kind) || there?.role === "post") };
  const refused = make("p", { class: "refused", role: "alert" });
  const spot = spotFields(page, { room: at.room, point: at.point }, { walls: at.walls, to: at.boxed ? "its nearer side" : "its middle" });
  return [make("form", { class: "value", onsubmit: async (event) => {
    event.preventDefault();
    answerTo(page, await hooks.act({ do: "place", part: page.chosen, ...spot.read() }), refused, spot.inputs);
  } }, make("h3", {}, "Place on the plan"), ...spot.lines, make("button", { type: "submit" }, "Place it"), refused)];
}

/** What a click on the plan means with a tool of the tray in the hand; undefined where it is none. */
export function putHere(plan, point, part) {
  const { page, hooks } = plan;
  const { tool } = page;
  const room = plan.roomAt(point);
  if (THINGS[tool]) return room && hooks.act({ do: "put", section: THINGS[tool][0], what: page.which?.[tool] ?? THINGS[tool][2]?.[0] ?? "", room: room.id, at: point.map(Math.round), phase: phase() });
  if (tool === "post" || tool === "beam") {
    const opening = plan.plan.openings.find((one) => one.id === part);
    const wall = plan.wallAt(point, NEAR_WALL);
    const draft = { what: tool };
    if (opening && tool === "beam") return hooks.ask({ ...draft, opening: opening.id });
    if (wall) return hooks.ask({ ...draft, ...wall, point: wall.foot });
    return room && hooks.ask({ ...draft, room: room.id, point });
  }
  if (tool === "stair" || tool === "hole") return room && hooks.ask({ what: tool, room: room.id, point });
  return undefined;
}

/** What was dragged on the plan with a tool of the tray. */
export function dragged(plan, from, to, box) {
  const { page, hooks } = plan;
  if (page.tool === "beam") return hooks.ask({ what: "beam", at: from, to });
  const [x, y, width, depth] = box;
  if (page.tool === "hole") return hooks.ask({ what: "hole", room: plan.roomAt([x + width / 2, y + depth / 2])?.id, point: [x, y], size: `${feet(width)} x ${feet(depth)}` });
  const flat = width > depth;
  const climbs = flat ? (to[0] > from[0] ? "right" : "left") : to[1] > from[1] ? "up the page" : "down the page";
  const room = plan.roomAt([x + width / 2, y + depth / 2]);
  return hooks.ask({ what: "stair", room: room?.id, at: [x, y], width: feet(flat ? depth : width), run: feet(flat ? width : depth), climbs });
}
