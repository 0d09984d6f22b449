// The memory of a Python that has just started, kept on the device: the next start takes it over, in about half the time.
// It is taken before anything was asked, so it holds nothing of the reader's. It is for speed only: without it, or when it
// does not fit, Python starts as the first time.

const QUIET = 2000; // ms without a question until it is written

// Calls start(options), with the options of loadPyodide that take over or allow to take a memory, and returns what start
// does: {python, ...}. library: address of the library, which changes with everything that Python starts from.
export async function wakeUp(library, start) {
  const kept = await find(library);
  if (kept) {
    try {
      const woken = await start({_loadSnapshot: kept.arrayBuffer()});
      performance.mark("started from memory");
      return woken;
    } catch (error) {
      console.warn("the memory kept does not fit:", error);
      await forget(library);
    }
  }
  const woken = await start({_makeSnapshot: true});
  keep(library, woken.python);
  return woken;
}

export async function forget(library) {
  await caches.delete(name(library)).catch(() => {});
}

// One for each copy of the site on a host (sw.js knows the name too: where room runs out, the pages come first), and for
// each version of a browser: what one finds out at the start stays in it.
const name = (library) => `underslab-memory ${new URL("../..", library).pathname}`;
const place = (library) => `${library}?${encodeURIComponent(navigator.userAgent)}`;

async function find(library) {
  try {
    return await (await caches.open(name(library))).match(place(library));
  } catch {
    return undefined; // a browser that keeps nothing
  }
}

function keep(library, python) {
  const memory = python.makeMemorySnapshot();
  const write = () => {
    self.removeEventListener("message", wait);
    put(library, memory).catch((error) => console.warn("the memory is not kept:", error));
  };
  let timer = 0;
  const wait = () => {
    clearTimeout(timer);
    timer = setTimeout(write, QUIET);
  };
  self.addEventListener("message", wait);
  wait();
}

async function put(library, memory) {
  const cache = await caches.open(name(library));
  for (const older of await cache.keys()) await cache.delete(older);
  await cache.put(place(library), new Response(memory));
}
