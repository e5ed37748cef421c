// The focus stays where a person left it, though what is shown is made anew after each change.

const CAN = "a[href], button, input, select, textarea, summary, [tabindex='0']";
const all = (node) => [...node.querySelectorAll(CAN)].filter((one) => !one.disabled);

/** What an element is known by before and after it is made anew. */
function name(one) {
  const { part, field, tool } = one.dataset;
  if (part || field || tool) return `${part ?? ""}/${field ?? ""}/${tool ?? ""}`;
  const within = one.closest("[data-item]")?.dataset.item ?? "";
  if (one.localName === "summary" && within) return within;
  const box = one.closest("[data-field]")?.dataset.field ?? "";
  return `${within}/${box}/${one.localName}/${one.type === "checkbox" || one.type === "radio" ? one.value : ""}/${one.getAttribute("aria-label") ?? one.textContent}`;
}

/**
 * Remember what in `node` has the focus; return what gives it back after `node` is filled anew: to the same element, or, where it is
 * gone because it was answered, to the next one after it that is still there.
 */
export function keepFocus(node) {
  const active = document.activeElement;
  if (!active || active === node || !node.contains(active)) return () => {};
  const before = all(node);
  const at = before.indexOf(active);
  const names = [...before.slice(at), ...before.slice(0, Math.max(at, 0)).reverse()].map(name);
  return () => {
    if (document.activeElement && document.activeElement !== document.body) return;
    const now = new Map(all(node).map((one) => [name(one), one]));
    now.get(names.find((one) => now.has(one)))?.focus();
  };
}
