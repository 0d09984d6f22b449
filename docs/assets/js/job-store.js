// Jobs kept in this browser, each under a key of its own, so that a fault in one never touches another. Nothing is sent.
//
//   A stored job: {mark, changed, file}. `mark` is new with every save; a page that saves with an old mark would overwrite
//   what another tab wrote, so it gets an error instead. A write that fails leaves what was there before.

const JOB = "underslab:job:";
const NOW = "underslab:job-now";

export class StoreError extends Error {
  constructor(kind, message) {
    super(message);
    this.kind = kind; // "full" | "off" | "elsewhere" | "gone"
  }
}

const WORDS = {
  full: "This browser has no room left. The last change is on this page only and is lost when it is closed: save the job as a file now.",
  off: "This browser keeps nothing (private window, or storage switched off). Save the job as a file before you close the page.",
  elsewhere: "This job was changed in another tab. Nothing was overwritten.",
  gone: "This job was deleted in another tab.",
};
const fault = (kind) => new StoreError(kind, WORDS[kind]);

export const keyOf = (id) => JOB + id;
const fresh = () => crypto.randomUUID?.() ?? `${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`;

function store() {
  try {
    return localStorage;
  } catch {
    throw fault("off");
  }
}

function write(key, text) {
  try {
    store().setItem(key, text);
  } catch (error) {
    if (error instanceof StoreError) throw error;
    throw fault(error?.name === "SecurityError" ? "off" : "full");
  }
}

// [{id, title, changed, broken}], last changed first.
export function jobs() {
  let kept;
  try {
    kept = Object.keys(store()).filter((key) => key.startsWith(JOB));
  } catch {
    return [];
  }
  const rows = kept.map((key) => {
    const {file, changed} = parsed(localStorage.getItem(key)) ?? {};
    return {id: key.slice(JOB.length), title: String(file?.title ?? "a job that cannot be read"), changed: String(changed ?? ""), broken: !file};
  });
  return rows.sort((a, b) => b.changed.localeCompare(a.changed) || a.id.localeCompare(b.id));
}

function parsed(text) {
  try {
    const {mark, changed, file} = JSON.parse(text);
    return file && typeof file === "object" && !Array.isArray(file) ? {mark, changed, file} : null;
  } catch {
    return null;
  }
}

export const rawText = (id) => store().getItem(JOB + id) ?? "";

// {id, mark, file}, or null when there is no such job or it cannot be read.
export function load(id) {
  try {
    const kept = parsed(store().getItem(JOB + id));
    return kept && {id, mark: kept.mark, file: kept.file};
  } catch {
    return null;
  }
}

// Keeps `file` as the newest state of the job and renews its mark. Throws StoreError; then nothing was overwritten.
export function save(record, file) {
  const text = store().getItem(JOB + record.id);
  if (text === null && record.mark) throw fault("gone");
  if (text !== null && parsed(text)?.mark !== record.mark) throw fault("elsewhere");
  const mark = fresh();
  write(JOB + record.id, JSON.stringify({mark, changed: new Date().toISOString(), file}));
  record.mark = mark;
  record.file = file;
}

// A new job; it becomes the one that the calculator pages add to. Throws StoreError.
export function create(file) {
  const record = {id: fresh(), mark: "", file};
  save(record, file);
  choose(record.id);
  navigator.storage?.persist?.().catch(() => {}); // asked once there is something worth keeping
  return record;
}

export function remove(id) {
  store().removeItem(JOB + id);
  if (current() === id) choose("");
}

// The id of the job in hand, "" for none.
export function current() {
  try {
    return store().getItem(NOW) ?? "";
  } catch {
    return "";
  }
}

export function choose(id) {
  try {
    if (id) write(NOW, id);
    else store().removeItem(NOW);
  } catch { /* held by the page only */ }
}

export const today = () => {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
};

export function blank() {
  let units = "us";
  try {
    if (store().getItem("underslab:units") === "si") units = "si";
  } catch { /* US units then */ }
  return {underslab_job: 1, title: `House of ${today()}`, invented: false, units, house: {}, inputs: {}, recorded: [], open: [], notes: []};
}
