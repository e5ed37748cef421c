// What the page asks of the board. Addresses are relative: the secret in the address stays out of the code.

let busy = Promise.resolve();

async function json(response) {
  if (!response.ok && response.status !== 400 && response.status !== 500) throw new Error(`status ${response.status}`);
  return response.json();
}

const PATIENCE = 30_000; // milliseconds, after which a board that does not answer has ended

export const state = async (revision) => json(await fetch(`state?revision=${revision ?? ""}`, { signal: AbortSignal.timeout(PATIENCE) }));
export const form = async (part) => json(await fetch(`form?part=${encodeURIComponent(part)}`));
export const asks = async (item) => json(await fetch(`asks?item=${encodeURIComponent(item)}`));

export const section = async (part) => json(await fetch(`section?part=${encodeURIComponent(part)}`));
export const letter = async () => json(await fetch("letter"));

/** Ask the board to do something; what is asked is done in turn, so that no answer overtakes another. */
export function act(what) {
  const headers = { "Content-Type": "application/json" };
  busy = busy.catch(() => {}).then(async () => json(await fetch("do", { method: "POST", headers, body: JSON.stringify(what) })));
  return busy;
}
