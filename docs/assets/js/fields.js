// The fields of a form: reading them into inputs, filling them from inputs, rows, ways of giving a thing, units.
// A control carries data-path ("openings[0].vertical"); what is hidden or blank is left out.

const keys = (path) => path.match(/[^.[\]]+/g);

const SHOWN = "[data-path]:not([hidden], [hidden] *)";

export function read(form, system) {
  const inputs = {};
  const blank = [...form.querySelectorAll("[data-row]")].filter(isBlank);
  for (const control of form.querySelectorAll(SHOWN)) {
    if (blank.length && blank.includes(control.closest("[data-row]"))) continue;
    const value = valueOf(control, system);
    if (value !== undefined) put(inputs, keys(control.dataset.path), value);
  }
  for (const list of form.querySelectorAll("[data-list]")) closeGaps(inputs, keys(list.dataset.list));
  return inputs;
}

// A number was typed over another: the inputs read before with this one in its place; null when it may change more than itself.
export function retyped(inputs, control, system) {
  if (control?.localName !== "input" || !control.dataset.path || control.dataset.kind) return null;
  const path = keys(control.dataset.path);
  const value = valueOf(control, system);
  if (value === undefined || path.reduce((holder, key) => holder?.[key], inputs) === undefined) return null;
  const fresh = structuredClone(inputs);
  put(fresh, path, value);
  return fresh;
}

function isBlank(row) {
  const typed = [...row.querySelectorAll("input[data-path]:not([data-kind=count]), select[data-path]")];
  return typed.length > 0 && typed.every((one) => !one.value.trim());
}

function valueOf(control, system) {
  const kind = control.dataset.kind;
  if (control.localName === "fieldset") {
    const chosen = [...control.querySelectorAll("input:checked")].map((box) => box.value);
    if (kind === "several") return chosen.length ? chosen : undefined;
    if (!chosen.length || chosen[0] === "") return undefined;
    return kind === "flag" ? chosen[0] === "true" : chosen[0];
  }
  const typed = control.value.trim();
  if (!typed) return undefined;
  if (kind || carriesUnit(typed)) return typed;
  const unit = unitOf(control, system);
  return !unit || unit === "1" ? typed : `${typed} ${unit}`;
}

// 9' 4-1/2" and 18 gpm go as they were typed; 1e-6 is still a bare number.
const carriesUnit = (text) => /[^\d\s.,/+\-−–⁄¼½¾⅛⅜⅝⅞⅓⅔]/.test(text.replace(/(\d)e([+-]?\d)/gi, "$1$2"));

const unitChoice = (control) => control.closest(".ask")?.querySelector("select.unit") ?? null;
const unitOf = (control, system) => unitChoice(control)?.value ?? control.dataset.unit ?? control.dataset[system];

function put(target, path, value) {
  path.forEach((key, i) => {
    if (i === path.length - 1) target[key] = value;
    else target = target[key] ??= /^\d+$/.test(path[i + 1]) ? [] : {};
  });
}

// Blank rows at the end of a list are not sent; one between others is, so that it is explained where it stands.
function closeGaps(inputs, path) {
  let holder = inputs;
  for (const key of path.slice(0, -1)) holder = holder?.[key];
  const list = holder?.[path.at(-1)];
  if (Array.isArray(list)) for (let i = 0; i < list.length; i++) list[i] ??= {};
}

// Filling ------------------------------------------------------------------------------------------------------------

// Puts inputs into the form and returns what has no place in it, as {path: value}.
export function fill(form, inputs) {
  for (const control of form.querySelectorAll("[data-path]")) clear(control);
  for (const list of form.querySelectorAll("[data-list]")) setRows(list, 0);
  const left = {};
  walk(form, inputs, "", left);
  for (const ways of form.querySelectorAll("[data-ways]")) chooseFilled(ways);
  for (const more of form.querySelectorAll("details")) more.open ||= holdsValue(more);
  return left;
}

function walk(form, value, path, left) {
  if (Array.isArray(value) && setRows(find(form, "list", path), value.length)) {
    value.forEach((entry, i) => walk(form, entry, `${path}[${i}]`, left));
  } else if (value && typeof value === "object" && !Array.isArray(value) && !isQuantity(value)) {
    for (const [name, member] of Object.entries(value)) walk(form, member, path ? `${path}.${name}` : name, left);
  } else if (value !== null && !all(form, "path", path).some((control) => set(control, value))) {
    left[path] = value;
  }
}

const isQuantity = (value) => Object.keys(value).every((key) => ["value", "unit", "default", "si"].includes(key)) && "value" in value;

// A word to choose and a number in its place are two controls of one path.
const all = (form, mark, path) => [...form.querySelectorAll(`[data-${mark}="${CSS.escape(path)}"]`)];

export function find(form, mark, path) {
  const found = all(form, mark, path);
  return found.find((one) => !one.closest("[hidden]")) ?? found[0] ?? null;
}

function clear(control) {
  if (control.localName === "fieldset") for (const box of control.querySelectorAll("input")) box.checked = false;
  else control.value = "";
}

// Puts one value into its control; false when it has no place there.
export function set(control, value) {
  if (!control) return false;
  if (value && typeof value === "object" && !Array.isArray(value)) value = value.unit ? `${value.value} ${value.unit}` : value.value;
  if (control.localName === "fieldset") {
    const wanted = (Array.isArray(value) ? value : [value]).map(String);
    const boxes = [...control.querySelectorAll("input")];
    if (!wanted.every((word) => boxes.some((box) => box.value === word))) return false;
    for (const box of boxes) box.checked = wanted.includes(box.value);
    return true;
  }
  if (typeof value === "object") return false;
  const text = String(value);
  if (control.localName === "select") {
    control.value = text;
    return control.value === text;
  }
  const [, number, unit] = text.match(/^(\S(?:.*?\d)?)\s+(\D.*)$/) ?? [];
  control.value = number && !carriesUnit(number) && setUnit(control, unit) ? number : text;
  return true;
}

function setUnit(control, unit) {
  const choice = unitChoice(control);
  if (!choice) return control.dataset.unit === unit;
  if (![...choice.options].some((option) => option.value === unit)) return false;
  choice.value = unit;
  return true;
}

const holdsValue = (place) => [...place.querySelectorAll("[data-path]")].some((control) => valueOf(control, "us") !== undefined);

// Ways and rows ------------------------------------------------------------------------------------------------------

export function chooseWay(ways, which) {
  for (const way of ways.children) if (way.dataset.way !== undefined) way.hidden = way.dataset.way !== which;
}

function chooseFilled(ways) {
  const picks = [...ways.querySelector(".picks").querySelectorAll("input")];
  const bodies = [...ways.children].filter((way) => way.dataset.way !== undefined);
  const which = bodies.find(holdsValue)?.dataset.way ?? (picks.length > bodies.length ? picks.at(-1) : picks[0]).value;
  for (const pick of picks) pick.checked = pick.value === which;
  chooseWay(ways, which);
}

const rowsOf = (list) => list.querySelector("[data-rows]");

export function addRow(list) {
  const rows = rowsOf(list);
  if (rows.children.length >= Number(list.dataset.high)) return null;
  rows.append(document.importNode([...list.children].find((one) => one.localName === "template").content, true));
  renumber(list);
  return rows.lastElementChild;
}

export function removeRow(list, row) {
  row?.remove();
  renumber(list);
}

function setRows(list, count) {
  if (!list || count > Number(list.dataset.high)) return false;
  const rows = rowsOf(list);
  while (rows.children.length > count) rows.lastElementChild.remove();
  while (rows.children.length < count) addRow(list);
  return true;
}

// Paths and ids of a row carry its number; "#" in the pattern of a new one.
function renumber(list) {
  const path = list.dataset.list;
  const idStem = path.replace(/[.[\]]+/g, "-");
  [...rowsOf(list).children].forEach((row, i) => {
    for (const one of [row, ...row.querySelectorAll("*")]) {
      for (const {name, value} of [...one.attributes]) {
        if (["data-path", "data-at", "data-list"].includes(name) && value.startsWith(`${path}[`)) {
          one.setAttribute(name, `${path}[${i}]${value.slice(path.length).replace(/^\[[^\]]*\]/, "")}`);
        } else if (["id", "for", "name", "aria-describedby", "aria-labelledby"].includes(name)) {
          one.setAttribute(name, value.replaceAll(new RegExp(`(-${idStem})-(?:\\d+|#)(?=-)`, "g"), `$1-${i}`));
        }
      }
    }
    if (!row.dataset.name) return;
    const name = `${row.dataset.name} ${i + 1}`;
    row.setAttribute("aria-label", name);
    row.querySelector("[data-count]").textContent = name;
  });
}

// Units --------------------------------------------------------------------------------------------------------------

// Shows units of the other system where no number stands yet, and in words that are printed in both.
export function showSystem(form, system) {
  for (const one of form.querySelectorAll("[data-us][data-si]")) {
    if (one.localName === "select") {
      const box = one.closest(".ask").querySelector("input");
      if (!box.value.trim()) one.value = one.dataset[system];
    } else if (one.localName !== "input") one.textContent = one.dataset[system];
  }
}

const before = new WeakMap(); // control -> what stood in it before it was converted, so that switching back loses nothing

// Puts converted numbers, {path: [text, unit]}, into their boxes. True when what had been typed was put back instead.
export function convert(form, fields, from, to) {
  let restored = false;
  for (const [path, [text, unit]] of Object.entries(fields)) {
    const control = find(form, "path", path);
    if (!control || control.localName !== "input") continue;
    const old = {system: from, text: control.value, unit: unitChoice(control)?.value};
    const kept = before.get(control);
    if (kept?.system === to && kept.shown === control.value && kept.shownUnit === old.unit) {
      control.value = kept.text;
      if (kept.unit) setUnit(control, kept.unit);
      before.delete(control);
      restored = true;
      continue;
    }
    control.value = unitChoice(control) && !setUnit(control, unit) ? `${text} ${unit}` : text;
    before.set(control, {...old, shown: control.value, shownUnit: unitChoice(control)?.value});
  }
  return restored;
}
