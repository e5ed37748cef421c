// What was typed short for something is shown in full beneath its field while one types; Enter then takes it as it is shown.

import { make } from "./make.js";
import * as net from "./net.js";

const QUIET = 150; // milliseconds without a key, after which what stands in a field is read
const shown = new WeakMap(); // by the field: the text, and the one way to read it
let timer;

function tell(input, text, meant) {
  const held = input.closest("label") ?? input;
  let note = held.nextElementSibling;
  if (!note?.matches("output.reading")) {
    if (!meant.length) return;
    note = make("output", { class: "reading" });
    held.after(note);
  }
  note.textContent = meant.length ? `${text} is ${meant.join(" or ")}` : "";
}

async function look(input) {
  const text = input.value.trim();
  let meant = [];
  try {
    if (text) ({ meant } = await net.read(input.dataset.reads, text));
  } catch {
    return; // the board has ended, which the page tells
  }
  if (input.value.trim() !== text || !input.isConnected) return;
  tell(input, text, meant);
  if (meant.length === 1) shown.set(input, { text, meant: meant[0] });
  else shown.delete(input);
}

/** Read what is typed on the page, and on Enter write out in full what is shown so. */
export function reading() {
  document.addEventListener("input", ({ target }) => {
    if (!target.dataset?.reads) return;
    shown.delete(target);
    clearTimeout(timer);
    timer = setTimeout(() => look(target), QUIET);
  });
  const inFull = (input) => {
    const found = shown.get(input);
    if (found && found.text === input.value.trim()) input.value = found.meant;
  };
  document.addEventListener("change", ({ target }) => inFull(target), true); // before the field itself tells of it
  document.addEventListener("submit", ({ target }) => target.querySelectorAll("[data-reads]").forEach(inFull), true);
}
