// Two small windows over the page: a part found by its name, and the list of keys.

import { by, make } from "./make.js";

const KEYS = [
  ["Tab, Shift-Tab", "the next part, the one before"], ["Enter", "the values of the part; takes what is typed"], ["Escape", "gives up"],
  ["Arrows", "move what is chosen 1 in; with Shift 1 ft, with Alt 1/4 in"], ["1 to 9", "begin a typed size of what is chosen"],
  ["R D W F A L P", "room, door, window, fixture, alarm, light, receptacle"], ["G S C O B", "vehicle door, stair, opening through a floor, post, beam or header"],
  ["H X E", "appliance, fan, panel"], ["T", "a plan to trace over"], ["V", "select"], ["Delete", "takes out"],
  ["N, Shift-N", "the next thing to do, the one before"], ["/", "find a part"], ["Page Up, Page Down", "the story above, below"],
  ["F6", "the next region of the page"], ["Ctrl-Z, Ctrl-Shift-Z", "undo, redo"], ["+ - 0", "zoom in, out, all of the plan"], ["?", "this list"],
];

function opened(...content) {
  const back = document.activeElement;
  const node = make("dialog", { onclose: () => { node.remove(); if (back?.isConnected && document.activeElement === document.body) back.focus(); } }, ...content);
  document.body.append(node);
  node.showModal();
  return node;
}

export function listOfKeys() {
  const node = opened(make("h2", {}, "Keys"), make("p", { class: "soft" }, "Letters count while the plan or the list has the focus."),
    make("dl", {}, ...KEYS.flatMap(([key, what]) => [make("dt", {}, key), make("dd", {}, what)])), make("button", { type: "button", onclick: () => node.close() }, "Close"));
}

/** Find a part by what it is called, and choose it. */
export function find(page, { choose }) {
  const parts = Object.entries(page.state.parts).map(([id, one]) => [one.label, id]);
  const refused = make("p", { class: "refused", role: "alert" });
  const input = make("input", { list: "found", autocomplete: "off" });
  const meant = () => parts.find(([label]) => label === input.value) ?? parts.find(([label]) => label.toLowerCase().includes(input.value.trim().toLowerCase()));
  const send = async (event) => {
    event.preventDefault();
    const found = input.value.trim() && meant();
    if (!found) {
      refused.textContent = "No part is called that.";
      return;
    }
    node.close();
    await choose(found[1], true);
  };
  const node = opened(make("form", { onsubmit: send }, make("h2", {}, "Find a part"), make("label", {}, make("span", {}, "What it is called"), input),
    make("datalist", { id: "found" }, ...parts.map(([label]) => make("option", { value: label }))), refused,
    make("button", { type: "submit", class: "main" }, "Show it"), make("button", { type: "button", onclick: () => node.close() }, "Close")));
  by("live").textContent = "";
}
