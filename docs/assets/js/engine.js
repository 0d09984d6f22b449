// The calculators' engine as the page sees it: Python runs in a worker, the page only sends and gets messages.
//
//   import {startEngine, ask, engineState, EngineError} from "./engine.js";
//
//   startEngine({onProgress, onReady, onFail})
//       Starts the one worker of this page when the page stands there, or at the first ask() (only then when the visitor
//       saves data), with the calculators named in <meta name="calculators"> imported before "ready".
//       onProgress   ({stage, done, total}): stage "waiting" | "fetching" (bytes) | "starting" | "restarting"
//       onReady      (): from now on answers come at once. Called again after a restart: ask again then.
//       onFail       ({message, final}): words for the reader; final = no further try will be made in this page.
//   ask({calculator, inputs, units, uid, stage, limit})  -> Promise
//       stage "first" (default) is the quick answer, "span" its range, "rest" the slower remainder (steps, plots),
//       "job" a whole job, "warm" the quick ones for nothing, "practice" what the practice pages ask.
//       limit: ms after which it counts as stuck (5 s unless given).
//       Resolves to the answer as an object; to null when a newer request of the same uid took its place;
//       rejects with EngineError (its message is for the reader) when the engine failed or took too long.
//       One request is worked on at a time; the newest wins; "first" goes before "rest". May be called before ready.
//   engineState()  -> "idle" | "waiting" | "starting" | "ready" | "failed"
//
// For the parts of the page that do not ask: the state also stands in <html data-engine="...">, and a change of it is
// told on document as event "underslab:engine", detail {state}.

const QUIET_LIMIT = 20_000; // ms without any news from a starting worker
const ANSWER_LIMIT = 5_000; // ms for one request
const RESTARTS = 3; // in a row, without one good answer between

const WORDS = {
  noStart: "The calculator did not start. The worked example on this page still holds for the numbers printed in it.",
  broken: "The calculator stopped. The worked example on this page still holds for the numbers printed in it.",
  tooLong: "This calculation took too long and was stopped. Change an input to try again.",
};

export class EngineError extends Error {}

let state = "idle";
let options = {};
let worker = null;
let timer = 0;
let restarts = 0;
let failure = ""; // for the reader, when no further try is made
let running = null; // {id, text, uid, resolve, reject, stale}
let lastId = 0;
const waiting = new Map(); // uid -> the newest request of that form

export const engineState = () => state;

// Python takes both cores of a small phone while it starts: not before the page and its fields (scope.js) stand there.
const frame = () => new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn)));
const parsed = new Promise((go) => (document.readyState === "loading" ? addEventListener("DOMContentLoaded", go) : go()));
const standing = parsed.then(frame).then(frame);

export function startEngine(given = {}) {
  options = given;
  if (state === "ready") return options.onReady?.();
  if (state === "failed") return options.onFail?.({message: failure, final: true});
  if (state !== "idle") return options.onProgress?.({stage: state, done: 0, total: 0});
  setState("waiting");
  options.onProgress?.({stage: "waiting", done: 0, total: 0});
  if (!navigator.connection?.saveData) standing.then(begin); // else the first ask() does
}

export function ask(request) {
  if (state === "failed") return Promise.reject(new EngineError(WORDS.noStart));
  const uid = request.uid ?? request.calculator;
  const text = JSON.stringify({stage: "first", ...request, uid});
  return new Promise((resolve, reject) => {
    waiting.get(uid)?.resolve(null);
    waiting.delete(uid); // so that the newest stands last
    if (running?.text === text && !running.stale) { // the same again: what is under way is its answer
      running.resolve(null);
      return Object.assign(running, {resolve, reject});
    }
    if (running?.uid === uid) running.stale = true;
    waiting.set(uid, {id: ++lastId, text, uid, rest: ["rest", "warm"].includes(request.stage), limit: request.limit ?? ANSWER_LIMIT, stale: false, resolve, reject});
    if (state === "idle" || state === "waiting") begin();
    else sendNext();
  });
}

function setState(now) {
  state = now;
  document.documentElement.dataset.engine = state;
  document.dispatchEvent(new CustomEvent("underslab:engine", {detail: {state}}));
}

function begin() {
  if (worker || state === "failed") return;
  setState("starting");
  const named = document.querySelector("meta[name=calculators]")?.content ?? "";
  const settings = {calculators: [...new Set(named.split(" ").filter(Boolean))], count: !navigator.serviceWorker?.controller};
  try {
    // Settings go in the name: a query would be lost when the stored copy of the file answers.
    worker = new Worker(new URL("worker.mjs", import.meta.url), {type: "module", name: JSON.stringify(settings)});
  } catch (error) {
    return giveUp(WORDS.noStart, error);
  }
  worker.onmessage = ({data}) => heard(data);
  worker.onerror = (event) => broke(event.message);
  worker.onmessageerror = () => broke("unreadable message");
  watch(QUIET_LIMIT, () => giveUp(WORDS.noStart, "no news from the worker"));
}

function heard(data) {
  if (data.fail !== undefined) return state === "starting" && restarts === 0 ? giveUp(WORDS.noStart, data.fail) : broke(data.fail);
  if (data.ready) {
    clearTimeout(timer);
    setState("ready");
    options.onReady?.();
    return sendNext();
  }
  if (data.stage) {
    watch(QUIET_LIMIT, () => giveUp(WORDS.noStart, "no news from the worker"));
    return options.onProgress?.({stage: data.stage, done: data.done ?? 0, total: data.total ?? 0});
  }
  if (data.id !== running?.id) return;
  clearTimeout(timer);
  const done = running;
  running = null;
  if (data.fault !== undefined) {
    console.error(data.fault);
    done.reject(new EngineError(WORDS.broken));
  } else {
    restarts = 0;
    settle(done, data.text);
  }
  sendNext();
}

function settle(done, text) {
  if (done.stale) return done.resolve(null);
  try {
    done.resolve(JSON.parse(text));
  } catch (error) {
    console.error(error);
    done.reject(new EngineError(WORDS.broken));
  }
}

function sendNext() {
  if (state !== "ready" || running || waiting.size === 0) return;
  const queue = [...waiting.values()].reverse(); // newest first
  running = queue.find((request) => !request.rest) ?? queue[0];
  waiting.delete(running.uid);
  worker.postMessage({id: running.id, text: running.text});
  watch(running.limit, () => broke("no answer in time", WORDS.tooLong));
}

function watch(limit, late) {
  clearTimeout(timer);
  const wasHidden = document.hidden;
  timer = setTimeout(() => {
    // A page in the background is slowed down or stopped with its worker: count anew when it is seen again.
    if (document.hidden || wasHidden) watch(limit, late);
    else late();
  }, limit);
}

function drop(reason, words) {
  console.error("calculator engine:", reason);
  clearTimeout(timer);
  worker?.terminate();
  worker = null;
  const lost = running;
  running = null;
  if (lost) lost.stale ? lost.resolve(null) : lost.reject(new EngineError(words));
}

function broke(reason, words = WORDS.broken) {
  drop(reason, words);
  if (state === "starting" && restarts === 0) return giveUp(WORDS.noStart, reason);
  if (++restarts > RESTARTS) return giveUp(WORDS.broken, reason);
  options.onProgress?.({stage: "restarting", done: 0, total: 0});
  options.onFail?.({message: words, final: false});
  begin();
}

function giveUp(message, reason) {
  failure = message;
  drop(reason, message);
  setState("failed");
  for (const request of waiting.values()) request.reject(new EngineError(message));
  waiting.clear();
  options.onFail?.({message, final: true});
}
