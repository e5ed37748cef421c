// Making elements. Text goes in as text, so that markup in a name is only ever a name.

const SVG = "http://www.w3.org/2000/svg";

function filled(node, attributes, children) {
  for (const [key, value] of Object.entries(attributes ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith("on")) node.addEventListener(key.slice(2), value);
    else if (key === "value" || key === "checked" || key === "disabled" || key === "hidden") node[key] = value;
    else node.setAttribute(key, value === true ? "" : value);
  }
  node.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ""));
  return node;
}

export const make = (name, attributes, ...children) => filled(document.createElement(name), attributes, children);
export const draw = (name, attributes, ...children) => filled(document.createElementNS(SVG, name), attributes, children);
export const by = (id) => document.getElementById(id);

/** Return inches as drawings write them, to the inch: 12'-6". Only for what moves under the hand; the board writes the file. */
export function feet(inches) {
  const whole = Math.round(Math.abs(inches));
  const sign = inches < 0 && whole ? "-" : "";
  return `${sign}${Math.floor(whole / 12)}'-${whole % 12}"`;
}

/** Say beside the fields why what was typed is not taken; what one was short for stands in it, or as buttons to choose from. */
export function answerTo(page, refused, node, inputs) {
  node.textContent = refused;
  const input = inputs.find((one) => one.value.trim() === page.typed?.trim());
  if (!refused || !page.meant?.length || !input) return;
  if (page.meant.length === 1) {
    input.value = page.meant[0];
    input.focus();
    input.select?.();
    return;
  }
  node.append(...page.meant.map((one) => make("button", { type: "button", onclick: () => {
    input.value = one;
    node.textContent = "";
    input.form?.requestSubmit();
  } }, one)));
}

/** Mark a field as one for sizes or lengths: `as` is what it is for, as the board calls it. */
export function reads(input, as) {
  if (as) input.dataset.reads = as;
  return input;
}
