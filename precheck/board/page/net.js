// What the page asks of the board. Addresses are relative: the secret in the address stays out of the code.

let busy = Promise.resolve();

async function json(response) {
  if (!response.ok && response.status !== 400 && response.status !== 500) throw new Error(`status ${response.status}`);
  return response.json();
}

const PATIENCE = 30_000; // milliseconds, after which a board that does not answer has ended

export const state = async (revision, underlay) => json(await fetch(`state?revision=${revision ?? ""}&underlay=${underlay ?? ""}`, { signal: AbortSignal.timeout(PATIENCE) }));
export const form = async (part) => json(await fetch(`form?part=${encodeURIComponent(part)}`));
export const asks = async (item) => json(await fetch(`asks?item=${encodeURIComponent(item)}`));

export const read = async (as, text) => json(await fetch(`read?as=${encodeURIComponent(as)}&text=${encodeURIComponent(text)}`));
export const section = async (part) => json(await fetch(`section?part=${encodeURIComponent(part)}`));
export const letter = async () => json(await fetch("letter"));

/** Ask the board to do something; what is asked is done in turn, so that no answer overtakes another. */
export function act(what, at = "do") {
  const headers = { "Content-Type": "application/json" };
  busy = busy.catch(() => {}).then(async () => json(await fetch(at, { method: "POST", headers, body: JSON.stringify(what) })));
  return busy;
}

/** Send a picture of a plan, as it is, to lie behind the sketch of a story. */
export async function send(story, file) {
  const answer = await fetch(`underlay/send?story=${encodeURIComponent(story)}`, { method: "POST", headers: { "Content-Type": "application/octet-stream" }, body: file });
  return answer.status === 413 ? { refused: "That is over 40 MB; make it smaller, or save the one page that is needed." } : json(answer);
}
