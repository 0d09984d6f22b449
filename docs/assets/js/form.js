// Wakes up the worked examples of a page: what is typed goes to the calculators, what they answer is put in its place.
// The words, numbers and formulas all come from there.

import {EngineError, ask, startEngine} from "./engine.js";
import {addRow, chooseWay, convert, fill, read, removeRow, retyped, showSystem} from "./fields.js";
import {fromAddress, link} from "./permalink.js";
import {clearProblems, showProblems} from "./problems.js";
import {setTexts} from "./texts.js";

const REST_AFTER = 300; // ms without a key until steps, checks and drawings follow
const SAY_AFTER = 700; // ms without a key until the answer is spoken
const WARM_TURNS = 40; // calculations after the start, so that keys do not meet cold code
const WARM_LONGEST = 100; // ms
const UNITS = "underslab:units";

class Example {
  constructor(section) {
    this.section = section;
    this.form = section.querySelector("form.numbers");
    this.asBuilt = this.form.querySelector("fieldset").cloneNode(true);
    this.system = this.shown = this.chosenSystem(); // asked for, and standing in the boxes
    this.left = {}; // inputs of a link that have no field here
    this.changed = false;
    this.cold = WARM_TURNS;
    this.inputs = {}; // as read with the last key
    this.standing = {}; // what was put last, by slot
    this.form.querySelector("fieldset").disabled = false;
    this.form.addEventListener("submit", (event) => event.preventDefault());
    this.form.addEventListener("input", (event) => this.typed(event.target));
    this.form.addEventListener("click", (event) => this.clicked(event.target.closest("button")));
    if (section.querySelector("[data-plan]")) import("./plan.js").then(({Plan}) => new Plan(section, this.form));
    section.addEventListener("underslab:example", ({detail}) => detail({request: {...this.request, units: this.shown}, open: (state) => this.open(state)}));
  }

  chosenSystem() {
    return this.form.querySelector("[data-units]:checked").value;
  }

  get request() {
    return this.requestFor(read(this.form, this.shown));
  }

  requestFor(inputs) {
    const {calculator, uid} = this.section.dataset;
    return {calculator, uid, units: this.system, inputs: {...inputs, ...this.left}};
  }

  typed(control) {
    if (control.dataset.units !== undefined) return keepSystem(control.value);
    if (control.dataset.pick !== undefined) chooseWay(control.closest("[data-ways]"), control.value);
    const at = control.closest("[data-path]")?.dataset.path;
    if (at) delete this.left[at];
    this.alone(control);
    this.ask(control);
  }

  // "Nothing found" and the like stand alone: choosing one of them takes the others off, and the other way round.
  alone(box) {
    const all = box.type === "checkbox" && box.checked ? [...box.closest("fieldset").querySelectorAll("input")] : [];
    for (const one of all) if (one !== box && (box.dataset.alone !== undefined || one.dataset.alone !== undefined)) one.checked = false;
  }

  clicked(button) {
    if (!button) return;
    const {act, step, add, remove} = button.dataset;
    if (step) this.step(button, Number(step));
    else if (add !== undefined || remove !== undefined) this.rows(button, remove);
    else if (act === "reset") this.reset();
    else if (act === "link") this.copyLink();
    else if (act === "letters") this.letters(button);
  }

  step(button, by) {
    const box = button.parentElement.querySelector("input");
    const {low, high, start} = box.dataset;
    const now = Number.parseInt(box.value || start || low, 10);
    box.value = Math.min(Number(high), Math.max(Number(low), (Number.isNaN(now) ? Number(low) : now) + by));
    this.typed(box);
  }

  rows(button, remove) {
    const list = button.closest("[data-list]");
    if (remove === undefined) {
      addRow(list)?.querySelector("input, select")?.focus();
      showSystem(this.form, this.shown);
    } else {
      removeRow(list, remove === "last" ? list.querySelector("[data-rows]").lastElementChild : button.closest("[data-row]"));
      list.querySelector("[data-add]").focus();
    }
    this.ask();
  }

  letters(button) {
    const on = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(on));
    for (const box of this.form.querySelectorAll(`input[inputmode=${on ? "decimal" : "text"}]`)) box.inputMode = on ? "text" : "decimal";
  }

  reset() {
    const fresh = this.asBuilt.cloneNode(true);
    fresh.disabled = false;
    this.form.querySelector("fieldset").replaceWith(fresh);
    this.left = {};
    const system = this.system;
    this.system = this.shown = this.chosenSystem();
    if (location.hash.startsWith("#i=")) history.replaceState(null, "", location.pathname + location.search);
    this.setSystem(system);
    fresh.querySelector("[data-act=reset]").focus();
  }

  async copyLink() {
    const url = link({calculator: this.section.dataset.calculator, uid: this.section.dataset.uid, units: this.shown, inputs: this.request.inputs});
    if (!url) return this.say("These are too many numbers for a link.");
    history.replaceState(null, "", url);
    try {
      await navigator.clipboard.writeText(url);
      this.say("The link is copied. It carries the numbers; nothing was sent anywhere.");
    } catch {
      this.say("The link stands in the address bar. It carries the numbers; nothing was sent anywhere.");
    }
  }

  open(state) {
    this.system = this.shown = state.units === "si" ? "si" : "us";
    this.left = fill(this.form, state.inputs);
    showSystem(this.form, this.shown);
    this.setSystem(this.system);
  }

  setSystem(system) {
    this.system = system;
    for (const box of this.form.querySelectorAll("[data-units]")) box.checked = box.value === system;
    this.ask();
  }

  // typed: the control that was typed in, where nothing else can have changed.
  async ask(typed = null) {
    this.changed = true;
    clearTimeout(this.restTimer);
    clearTimeout(this.sayTimer);
    this.inputs = retyped(this.inputs, typed, this.shown) ?? read(this.form, this.shown);
    const request = this.requestFor(this.inputs);
    const answer = await this.answer({...request, stage: "first", convert: this.shown !== this.system});
    if (!answer) return;
    if (answer.fields) {
      const from = this.shown;
      this.shown = this.system;
      this.inputs = {}; // the boxes hold other numbers now
      const restored = convert(this.form, answer.fields, from, this.shown);
      showSystem(this.form, this.shown);
      if (restored) return this.ask();
    }
    if (answer.ok) {
      clearProblems(this.section);
      this.put(answer.html);
      this.restTimer = setTimeout(() => this.more(request, "rest"), REST_AFTER);
      this.more(request, "span");
    } else {
      showProblems(this.section, answer.problems ?? []);
    }
    const words = answer.ok ? answer.status : `${answer.problems.length} ${answer.problems.length === 1 ? "number was" : "numbers were"} not read`;
    this.sayTimer = setTimeout(() => {
      this.slot("spoken").textContent = words;
    }, SAY_AFTER);
  }

  // What follows the first answer to the same numbers.
  async more(request, stage) {
    const asked = this.restTimer;
    const answer = await this.answer({...request, stage});
    if (!answer?.ok) return;
    for (const [name, text] of Object.entries(answer.html)) {
      if (asked !== this.restTimer) return; // a newer answer stands above
      if (this.standing[name] === text) continue;
      this.put({[name]: text});
      await new Promise((turn) => setTimeout(turn)); // a key goes before the next part
    }
    if (stage === "rest") this.warm();
  }

  // While nobody types: the same numbers again and again, for nothing but a quick next key.
  async warm() {
    const {restTimer, section} = this;
    for (; this.cold > 0 && restTimer === this.restTimer; this.cold -= 1) {
      const start = performance.now();
      await ask({...this.request, uid: `warm-${section.dataset.uid}`, stage: "warm"}).catch(() => {});
      if (performance.now() - start > WARM_LONGEST) this.cold = 0; // a key would wait for it
    }
  }

  async answer(request) {
    try {
      const answer = await ask(request);
      if (answer?.fault) throw new Error(answer.fault);
      return answer;
    } catch (error) {
      console.error(error);
      this.say(error instanceof EngineError ? error.message : "The calculator could not work this out. The answer shown is the one from before.");
      return null;
    }
  }

  put(html) {
    const texts = Object.entries(html).filter(([name, text]) => !setTexts(this.slot(name), this.standing[name], text));
    Object.assign(this.standing, html);
    if (!texts.length) return;
    const parsed = new DOMParser().parseFromString(texts.map(([, text]) => `<div>${text}</div>`).join(""), "text/html");
    const boxes = [...parsed.body.children];
    texts.forEach(([name, text], i) => {
      this.slot(name)?.replaceChildren(...boxes[i].childNodes);
      const heading = this.section.querySelector(`[data-with="${name}"]`);
      if (heading) heading.hidden = !text;
    });
  }

  slot(name) {
    return this.section.querySelector(`[data-slot="${name}"]`);
  }

  progress(text) {
    this.slot("engine").textContent = text;
  }

  say(text) {
    this.slot("said").textContent = text;
  }
}

let examples = [];

function keepSystem(system) {
  try {
    localStorage.setItem(UNITS, system);
  } catch { /* kept for this page only */ }
  for (const one of examples) one.setSystem(system);
}

function openAddress() {
  const state = fromAddress();
  if (!state) return;
  const mine = examples.filter((one) => one.section.dataset.calculator === state.calculator);
  (mine.find((one) => one.section.dataset.uid === state.uid) ?? mine[0])?.open(state);
}

const tell = (text) => examples.forEach((one) => one.progress(text));

function wake() {
  examples = [...document.querySelectorAll("section.worked[data-calculator]")].map((section) => new Example(section));
  if (!examples.length) return;
  startEngine({
    onProgress({stage, done, total}) {
      const part = total > 0 ? `: ${Math.min(99, Math.floor((100 * done) / total))} %` : "";
      const words = {waiting: "", fetching: `Getting the calculator${part}.`, starting: "Starting the calculator.", restarting: "Starting the calculator again."};
      tell(`${words[stage] ?? ""} The example below can be read, and changed, meanwhile.`.trim());
    },
    onReady() {
      tell("Change a number: the answer follows.");
      for (const one of examples) one.changed ? one.ask() : one.warm();
    },
    onFail({message, final}) {
      tell(message);
      if (final) for (const one of examples) one.form.querySelector("fieldset").disabled = true;
    },
  });
  let kept = null;
  try {
    kept = localStorage.getItem(UNITS);
  } catch { /* nothing is kept in this browser */ }
  openAddress();
  if (["us", "si"].includes(kept)) for (const one of examples) if (one.system !== kept && !one.changed) one.setSystem(kept);
  addEventListener("hashchange", openAddress);
}

setTimeout(wake); // a turn of its own
