// The town's letter: pasted as text, its items by their own numbers, each beside what it seems to be about, with room for an answer.

import { make } from "./make.js";
import * as net from "./net.js";

export async function townLetter(node, page, hooks) {
  const found = await net.letter();
  const refused = make("p", { class: "refused", role: "alert" });
  const text = make("textarea", { rows: found.items.length ? 4 : 14, "aria-label": "Text of the letter", placeholder: "1. Sheet A3: the sill of window W1 is too high, R310.2.3 ..." });
  text.value = found.text;
  refused.textContent = found.refused ?? "";
  const take = async (event) => {
    event.preventDefault();
    refused.textContent = await hooks.act({ do: "letter", text: text.value });
    if (!refused.textContent) await townLetter(node, page, hooks);
  };
  node.replaceChildren(make("h2", {}, "The town's letter"),
    make("p", { class: "soft" }, "Paste its text. Its items are told apart by their numbers; what each seems to be about is a proposal, and the answer is yours."),
    make("form", { class: "value", onsubmit: take }, text, make("button", { type: "submit" }, found.text ? "Take the new text" : "Read the letter"), refused),
    ...found.items.map((item) => shown(item, hooks)),
    ...(found.text && !found.items.length ? [make("p", {}, "No numbered item was found in it. Put a number before each, such as 1.")] : []),
    ...(found.items.length ? [make("p", {}, make("a", { href: "paper-letter", target: "_blank", rel: "noopener" }, "The response, to print or save as PDF"), " ", make("a", { href: "paper-letter.txt", target: "_blank", rel: "noopener" }, "and as text to mail"))] : []));
}

function shown(item, hooks) {
  const refused = make("p", { class: "refused", role: "alert" });
  const answer = make("textarea", { rows: 2, "aria-label": `Answer to item ${item.number}` });
  answer.value = item.answer;
  const send = async () => { refused.textContent = await hooks.act({ do: "answer letter", item: item.number, answer: answer.value }); };
  answer.addEventListener("change", send);
  const state = item.open === null ? "nothing here seems to be meant" : item.open ? "still open here" : "shown by now";
  return make("section", { class: "ask", "aria-label": `Item ${item.number}` }, make("p", { class: "asked" }, `${item.number}. ${item.text}`),
    make("p", { class: "soft" }, state), make("ul", {}, ...item.told.map((line) => make("li", {}, line))), make("label", {}, make("span", { class: "soft" }, "Your answer"), answer), refused);
}
