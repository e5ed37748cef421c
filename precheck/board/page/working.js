// Whether the page is still at something: who drives it by keys, or reads it aloud, can wait until it is as it will stay.

let count = 0;
const told = (by) => {
  count += by;
  document.documentElement.dataset.working = String(count);
};
told(0);

/** Do something, and tell of it until it is done. */
export async function during(work) {
  told(1);
  try {
    return await work();
  } finally {
    told(-1);
  }
}
