// Keys. Single letters count only while the plan has the focus, so that nobody loses what is typed.

import { by } from "./make.js";

const TOOL = { v: "select", r: "room", d: "door", w: "window", a: "alarm", l: "light", p: "receptacle", f: "fixture", t: "underlay" };
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

export function keys(page, plan, { act, choose, step, show, tell }) {
  addEventListener("keydown", async (event) => {
    if (!page.state?.plan) return;
    const typing = event.target.closest?.("input, select, textarea");
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !typing) {
      event.preventDefault();
      await step(event.shiftKey ? "redo" : "undo");
    } else if (event.key === "Escape") {
      page.draft = null;
      page.tool = "select";
      await choose("");
      by("plan").querySelector("[tabindex]")?.focus();
    } else if (event.target.closest?.("#plan")) {
      await onPlan(event, page, plan, { act, choose, show, tell });
    }
  });
}

async function onPlan(event, page, plan, { act, show, tell }) {
  const key = event.key.toLowerCase();
  if (ARROWS[event.key] && page.chosen) {
    event.preventDefault();
    const inches = event.altKey ? 0.25 : event.shiftKey ? 12 : 1;
    const refused = await plan.nudge(ARROWS[event.key].map((way) => way * inches), act);
    if (refused) tell(refused);
  } else if (TOOL[key] && !event.ctrlKey && !event.metaKey) {
    event.preventDefault();
    document.querySelector(`[data-tool="${TOOL[key]}"]`)?.click();
  } else if (event.key === "+" || event.key === "-") {
    plan.zoom(event.key === "+" ? 1.25 : 0.8);
  } else if (event.key === "0") {
    plan.fit();
  } else if (event.key === "Delete" && page.chosen) {
    const refused = await act({ do: "take out", part: page.chosen });
    tell(refused || "Taken out.");
    show();
  }
}
