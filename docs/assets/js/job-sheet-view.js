// The sheet of one job in the page: puts the parts that the calculators give in their place, without taking the box away
// in which somebody types; reads what was typed on its lines.

export function element(tag, name, text = "", attributes = {}) {
  const made = document.createElement(tag);
  if (name) made.className = name;
  made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

export function button(text, act, main = false) {
  return element("button", main ? "act act--main" : "act", text, {type: "button", "data-act": act});
}

export const parse = (html) => document.importNode(new DOMParser().parseFromString(html, "text/html").body.firstElementChild, true);

// Where each calculator is worked, from the list behind the look-up box: {name: address}.
let places = null;
export function pages() {
  places ??= fetch(new URL("assets/look-up.json", window.__md_scope))
    .then((answer) => answer.json())
    .then((rows) => Object.fromEntries(rows.filter((row) => row.c).map((row) => [row.c, new URL(row.u, window.__md_scope).href])))
    .catch(() => ({}));
  return places;
}

const LONGEST = 20_000;

// Links of a calculator's part: to its page, with the numbers of this job, and off the sheet.
function ways(name, address, inputs, own) {
  const acts = element("p", "acts noprint");
  if (address) {
    const state = {calculator: name, inputs};
    const whole = `${address}#i=${encodeURIComponent(JSON.stringify(state))}`;
    const link = element("a", "", "Change these numbers");
    link.href = whole.length < LONGEST ? whole : address;
    acts.append(link);
  }
  if (own) {
    const off = button("Take off the sheet", "drop");
    off.className = "act act--small";
    off.dataset.calculator = name;
    acts.append(off);
  }
  return acts;
}

export function showParts(sheet, answer, file, addresses) {
  const parts = answer.pieces.map(([key, html]) => [key, parse(html)]);
  for (const [, part] of parts) {
    const name = part.dataset.of;
    if (name) part.querySelector("h2").after(ways(name, addresses[name], answer.inputs[name] ?? {}, Boolean(file.inputs?.[name])));
  }
  if (answer.csv) {
    const acts = element("p", "acts noprint");
    const list = button("Save the list as CSV", "csv");
    list.className = "act act--small";
    acts.append(list);
    parts.find(([key]) => key === "materials")?.[1].append(acts);
  }
  const wanted = new Set(parts.map(([key]) => key));
  for (const old of sheet.querySelectorAll("[data-part]")) if (!wanted.has(old.dataset.part)) old.remove();
  let before = sheet.querySelector(".sheet__head");
  for (const [key, part] of parts) {
    const old = sheet.querySelector(`[data-part="${CSS.escape(key)}"]`);
    if (old?.contains(document.activeElement) && old.querySelector("[data-write]")) before = old;
    else {
      if (old) old.replaceWith(part);
      else before.after(part);
      before = part;
    }
  }
}

const MOST = 200; // entries of a list in a job file
const LINE = 2000; // signs of one entry

const lines = (text) => text.split("\n").map((line) => line.trim().slice(0, LINE)).filter(Boolean).slice(0, MOST);

// A line of the sheet goes into the notes as "label: words"; the calculators make a record of it where it is a number.
export function write(file, control) {
  const {write: label, of, field} = control.dataset;
  const notes = (file.notes ?? []).filter((note) => !note.startsWith(`${label}: `));
  const recorded = (file.recorded ?? []).filter((entry) => !of || entry.calculator !== of || entry.field !== field);
  const words = control.value.trim();
  return {...file, recorded, notes: words ? [...notes, `${label}: ${words}`].slice(-MOST) : notes};
}

// The form of the house as members of the job file.
export function houseOf(file, form, labels) {
  const held = (name) => form.querySelector(`[data-house="${name}"]`);
  const chosen = (name) => [...form.querySelectorAll(`[data-house="${name}"]:checked`)].map((box) => box.value);
  const next = {...file, title: held("title").value.trim() || "House without a name"};
  const day = held("day").value;
  const year = Number(day.slice(0, 4));
  if (day && year >= 1900 && year < 2900) next.started = held("time").value ? `${day}T${held("time").value}` : day;
  else if (!day) delete next.started;
  if (chosen("rules").length) next.rules = chosen("rules");
  else delete next.rules;
  next.units = chosen("units")[0] ?? "us";
  next.open = lines(held("open").value);
  const written = (file.notes ?? []).filter((note) => labels.some((label) => note.startsWith(`${label}: `)));
  next.notes = [...written, ...lines(held("notes").value)].slice(0, MOST);
  return next;
}
