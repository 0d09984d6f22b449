// The memory of a Python that has just started, kept on the device: the next start takes it over, in about half the time.
// It is taken before anything was asked, so it holds nothing of the reader's. It is for speed only: without it, or when it
// does not fit, Python starts as the first time.

import {quiet} from "./quiet.mjs";

const QUIET = 2000; // ms without a question until it is written, or work is done beforehand

// Calls start(options), with the options of loadPyodide that take over or allow to take a memory, and returns what start
// does: {python, ...}. library: address of the library, which changes with everything that Python starts from.
export async function wakeUp(library, start) {
  const kept = await found(library, place(library)).catch(() => undefined); // a browser that keeps nothing
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

// Goes through steps while nobody asks, once on this device: what the browser compiles for them is there at the next start.
export async function rehearse(library, begin) {
  const done = `${place(library)}&rehearsed`;
  if (await found(library, done)) return;
  await quiet(QUIET);
  performance.mark("rehearsal");
  const steps = begin();
  while (!steps.next().done) await quiet(QUIET);
  performance.mark("rehearsed");
  await (await caches.open(name(library))).put(done, new Response());
}

// One for each copy of the site on a host (sw.js knows the name too: where room runs out, the pages come first), and for
// each version of a browser: what one finds out at the start stays in it.
const name = (library) => `underslab-memory ${new URL("../..", library).pathname}`;
const place = (library) => `${library}?${encodeURIComponent(navigator.userAgent)}`;

// Without opening the cache: an open one takes room after it was deleted.
const found = (library, what) => caches.match(what, {cacheName: name(library)});

async function keep(library, python) {
  const memory = python.makeMemorySnapshot();
  await quiet(QUIET);
  await put(library, memory).catch((error) => console.warn("the memory is not kept:", error));
}

async function put(library, memory) {
  const cache = await caches.open(name(library));
  for (const older of await cache.keys()) await cache.delete(older);
  await cache.put(place(library), new Response(memory));
}
