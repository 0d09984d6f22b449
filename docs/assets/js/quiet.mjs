// In a worker: waits until nobody has asked for a while.

let heard = performance.now();
self.addEventListener("message", () => {
  heard = performance.now();
});

const left = (ms) => heard + ms - performance.now();

// Resolves when no message has come for so many ms; at the earliest in the next turn, so that one that waits is heard.
export async function quiet(ms) {
  do await new Promise((go) => setTimeout(go, left(ms)));
  while (left(ms) > 0);
}
