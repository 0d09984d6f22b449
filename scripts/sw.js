// Keeps one whole version of the site on the device and answers from it. Two lines are written above this one when the
// site is built: VERSION, and FILES as {address: [sha256 in base64, bytes]}, every file of the site.
//
// A version is kept whole or not at all. It is used only when it is whole, and an update waits until the reader says so.
// To the page: {type: "kept", done, total} in bytes while files come in; {type: "state", whole, version, total};
// {type: "broken off", full} when they cannot be fetched, or there is no room for them.
// From the page: {type: "use-now"}, {type: "state"}, {type: "busy"} when a page needs the device and the line
// for itself: then no further file is asked for during a while.

/* global VERSION, FILES */
const SCOPE = self.registration.scope; // so that the site may lie in any folder of its host
const OURS = `underslab ${new URL(SCOPE).pathname} `;
const NAME = OURS + VERSION;
const TABLE = `${SCOPE}kept-files`; // where a cache says which file it holds, for the next version to copy from
const MEMORY = `underslab-memory ${new URL(SCOPE).pathname}`; // of a started Python, for speed only: assets/js/memory.mjs
const AT_ONCE = 6;
const STILL = 1500; // ms after such a word until the next file: fetching and keeping slow a page down
const total = Object.values(FILES).reduce((sum, [, bytes]) => sum + bytes, 0);
const ofEngine = (path) => path.startsWith("engine/");
const isFull = (error) => error.name === "QuotaExceededError";
const address = (path) => new URL(path || "./", SCOPE).href;
let busy = -STILL;

self.addEventListener("install", (event) => event.waitUntil(keepOrTell()));

self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(OURS) && name !== NAME) await caches.delete(name);
  await self.clients.claim();
})()));

self.addEventListener("message", (event) => {
  if (event.data?.type === "use-now") self.skipWaiting();
  if (event.data?.type === "busy") busy = performance.now();
  if (event.data?.type === "state") event.waitUntil(state(event.source));
});

self.addEventListener("fetch", (event) => {
  const {request} = event;
  if (request.method === "GET" && request.url.startsWith(SCOPE)) event.respondWith(answer(request));
});

async function keepOrTell() {
  try {
    await keep();
  } catch (error) {
    await toPages({type: "broken off", full: isFull(error)});
    throw error;
  }
}

async function keep() {
  const cache = await caches.open(NAME);
  await put(cache, TABLE, () => new Response(JSON.stringify(FILES)));
  const there = new Set((await cache.keys()).map((request) => request.url));
  const missing = Object.keys(FILES).filter((path) => !there.has(address(path)));
  const old = missing.length ? await olderCopies() : new Map();
  const progress = {done: total - missing.reduce((sum, path) => sum + FILES[path][1], 0), told: 0};
  const one = (path) => put(cache, address(path), async () => {
    const [hash, bytes] = FILES[path];
    const copy = await old.get(hash)?.();
    if (copy) await tell(progress, bytes);
    return copy ?? fetchWhole(address(path), hash, progress);
  });
  // The engine first: a calculator's page that is opened meanwhile finds it in the browser's own cache.
  await someAtOnce(missing.filter(ofEngine), one);
  await someAtOnce(missing.filter((path) => !ofEngine(path)), one);
  await tell({...progress, told: 0}, 0);
}

// One that fails takes no further path along; the word that it broke off comes after the last word of progress.
async function someAtOnce(paths, work) {
  const next = async () => {
    for (let path = paths.shift(); path !== undefined; path = paths.shift()) {
      for (let left = 0; (left = busy + STILL - performance.now()) > 0; ) await new Promise((go) => setTimeout(go, left));
      await work(path);
    }
  };
  const ends = await Promise.allSettled(Array.from({length: AT_ONCE}, () => next().catch((error) => {
    paths.length = 0;
    throw error;
  })));
  const reasons = ends.filter(({status}) => status === "rejected").map(({reason}) => reason);
  if (reasons.length) throw reasons.find(isFull) ?? reasons[0];
}

// On a device without room the memory gives way to the pages.
async function put(cache, url, get) {
  const file = await get();
  await cache.put(url, file).catch(async () => {
    await caches.delete(MEMORY);
    await cache.put(url, await get());
  });
}

async function olderCopies() {
  const copies = new Map();
  for (const name of await caches.keys()) {
    if (!name.startsWith(OURS) || name === NAME) continue;
    const cache = await caches.open(name);
    const files = await (await cache.match(TABLE))?.json() ?? {};
    for (const [path, [hash]] of Object.entries(files)) copies.set(hash, () => cache.match(address(path)));
  }
  return copies;
}

// One file, byte by byte for the progress line, refused unless its hash is the expected one: a server in the middle of
// being changed must not leave a mixture behind. It is kept as it came: beside an answer of the network the browser keeps
// the code that it compiles. Files of the engine never change under one name: what the page has fetched will do, with
// the code that belongs to it. What the browser has may be spoilt, or a server may take it for the new one: then anew.
function fetchWhole(url, hash, progress) {
  const cache = url.startsWith(`${SCOPE}engine/`) ? "force-cache" : "no-cache";
  return fetched(url, hash, progress, cache).catch(() => fetched(url, hash, progress, "reload"));
}

async function fetched(url, hash, progress, cache) {
  const response = await fetch(url, {cache});
  if (!response.ok) throw new Error(`${response.status} ${url}`);
  const asItCame = response.clone();
  const parts = [];
  for (const reader = response.body.getReader(); ;) {
    const {done, value} = await reader.read();
    if (done) break;
    parts.push(value);
    await tell(progress, value.byteLength);
  }
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", await new Blob(parts).arrayBuffer()));
  if (btoa(String.fromCharCode(...digest)) !== hash) throw new Error(`another version on the server: ${url}`);
  return asItCame;
}

async function tell(progress, bytes) {
  progress.done += bytes;
  if (performance.now() - progress.told < 150) return;
  progress.told = performance.now();
  await toPages({type: "kept", done: Math.min(progress.done, total), total}); // a file fetched twice counts twice
}

async function toPages(message) {
  const pages = await self.clients.matchAll({includeUncontrolled: true});
  for (const page of pages) page.postMessage(message);
}

// Asked by a page. A browser short of space may have thrown files away: then fetch what is missing again.
async function state(page) {
  const there = new Set((await (await caches.open(NAME)).keys()).map((request) => request.url));
  const whole = Object.keys(FILES).every((path) => there.has(address(path)));
  page.postMessage({type: "state", whole, version: VERSION, total});
  if (whole) return;
  await keepOrTell();
  page.postMessage({type: "state", whole: true, version: VERSION, total});
}

async function answer(request) {
  const url = new URL(request.url);
  const plain = (url.origin + url.pathname).replace(/\/index\.html$/, "/");
  const cache = await caches.open(NAME);
  const kept = (plain.endsWith(".wasm") && await compiled(plain)) || await cache.match(plain);
  if (kept) return kept;
  const path = plain.slice(SCOPE.length);
  if (request.mode === "navigate" && `${path}/` in FILES) return Response.redirect(`${plain}/${url.search}`);
  try {
    return await fetch(request);
  } catch (error) {
    if (request.mode !== "navigate") throw error;
    return path in FILES ? thrownAway() : notFound(cache);
  }
}

// The browser's own cache may still hold the interpreter of the first visit, and with it the code compiled then.
function compiled(url) {
  return fetch(url, {cache: "only-if-cached", mode: "same-origin"}).then((copy) => copy.ok && copy, () => null);
}

// A page of the site that the browser has thrown away, and no network to fetch it again.
function thrownAway() {
  const words = "This page of Underslab is no longer kept on this device: the browser has thrown it away, as it does where room "
    + "is short. Open it again with a network; then everything is kept anew.";
  return new Response(words, {status: 503, headers: {"content-type": "text/plain; charset=utf-8"}});
}

// The page for wrong addresses names its files from the host's root: put the site's folder in front.
async function notFound(cache) {
  const page = await cache.match(address("404.html"));
  if (!page) return Response.error();
  const html = (await page.text()).replaceAll(/(href|src|data-scope)="\/(?!\/)/g, `$1="${new URL(SCOPE).pathname}`);
  return new Response(html, {status: 404, headers: {"content-type": "text/html; charset=utf-8"}});
}
