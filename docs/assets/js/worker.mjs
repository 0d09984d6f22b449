// Python in a worker: starts Pyodide, imports the calculators, answers one text with one text.
// In: {id, text}.  Out: {id, text}, or {id, fault} when the program itself broke; before that {stage, done, total},
// {ready: true} or {fail: reason}.  Settings come in the worker's name, as JSON: {calculators: [names], count: bool}.

import {forget, rehearse, wakeUp} from "./memory.mjs";

// Where the engine lies, filled in when the site is built: {home, library, info, sizes}.
const BUILD = null;

const settings = JSON.parse(self.name || "{}");
const say = (message) => self.postMessage(message);
const fail = (error) => say({fail: String(error?.message ?? error).slice(-2000)});

// Pyodide only warns when one of its files cannot be had, and then waits for ever: watch its requests.
// While the files come over the network their bytes are counted too.
let done = 0;
let lastSaid = 0;
function watchRequests(total) {
  const plainFetch = self.fetch.bind(self);
  self.fetch = async (...request) => {
    const response = await plainFetch(...request).catch((error) => (fail(error), Promise.reject(error)));
    if (!response.ok) fail(`${response.status} ${response.url}`);
    if (settings.count && response.ok && response.body) count(response.clone().body, total);
    return response; // as it came: beside such an answer the browser keeps the code that it compiles
  };
}

async function count(body, total) {
  for (const reader = body.getReader(); ;) {
    const {done: all, value} = await reader.read();
    if (all) return;
    done += value.byteLength;
    if (performance.now() - lastSaid < 100) continue;
    lastSaid = performance.now();
    say({stage: "fetching", done, total});
  }
}

async function start() {
  if (!BUILD) throw new Error("this copy of the site was made without the calculator engine");
  const home = new URL(BUILD.home, self.location.href).href;
  const counted = Object.entries(BUILD.sizes).filter(([name]) => !name.endsWith(".mjs"));
  watchRequests(counted.reduce((sum, [, size]) => sum + size, 0));
  say({stage: "fetching", done: 0, total: 0});
  import(`${home}pyodide.asm.mjs`).catch(() => {}); // the second file, asked for before the first one asks for it
  const {loadPyodide} = await import(`${home}pyodide.mjs`);
  const library = home + BUILD.library;
  const {python, page} = await wakeUp(library, async (memory) => {
    const python = await loadPyodide({
      indexURL: home,
      stdLibURL: library,
      lockFileContents: {info: BUILD.info, packages: {}},
      packageBaseUrl: home,
      env: {HOME: "/home"},
      args: ["-S"], // without the module site: nothing is installed beside the library
      ...memory,
    });
    say({stage: "starting"});
    python.pyimport("read_once");
    const page = python.pyimport("calculators.page");
    for (const name of settings.calculators ?? []) page.prepare(name);
    return {python, page};
  });
  const {answer, span, rest, job, practice, warm} = page;
  self.onmessage = ({data: {id, text}}) => {
    try {
      const work = {span, rest, job, practice, warm}[JSON.parse(text).stage] ?? answer;
      say({id, text: work(text)});
    } catch (error) {
      forget(library); // lest a bad one be taken over again
      say({id, fault: String(error?.message ?? error).slice(-2000)});
    }
  };
  say({ready: true});
  rehearse(library, () => python.pyimport("calculators.rehearsal").steps()).catch((error) => console.warn("no rehearsal:", error));
}

start().catch(fail);
