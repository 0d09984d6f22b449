// The job sheet of a house of one's own: which job, what is typed on the sheet itself, and the sheet as the calculators
// make it. Every key typed is kept at once; without a job the page shows the example that it was built with.

import {ask, startEngine} from "./engine.js";
import {FileError, readFile, saveAsFile, saveJob, shareJob} from "./job-sheet-file.js";
import {button, element, houseOf, pages, showParts, write} from "./job-sheet-view.js";
import {blank, choose, create, current, jobs, keyOf, load, rawText, remove, save, today} from "./job-store.js";

const AFTER = 500; // ms without a key until the sheet is worked out again
const LIMIT = 30_000; // ms for a whole job on a slow phone
const NO_ENGINE = "The calculator did not start, so the sheet cannot be worked out now. What you typed is kept; it can be saved as a file.";

const waited = () => document.documentElement.classList.remove("waits-for-job"); // set in scope.js before the first paint

class Desk {
  constructor(sheet) {
    this.sheet = sheet;
    this.example = [...sheet.childNodes];
    this.record = null;
    this.turn = 0; // counts changes, so that an answer to an older state is not put back
    this.started = false;
    this.lay();
    this.desk.addEventListener("click", (event) => this.clicked(event.target.closest("button")));
    this.sheet.addEventListener("click", (event) => this.clicked(event.target.closest("button")));
    this.desk.addEventListener("input", (event) => this.typed(event.target));
    this.sheet.addEventListener("input", (event) => this.typed(event.target));
    addEventListener("storage", (event) => this.elsewhere(event));
    this.take(load(current()) || jobs().some((job) => job.id === current()) ? current() : "");
  }

  lay() {
    this.picker = element("select", "", "", {id: "job-picker", "data-act": "pick"});
    const label = element("label", "", "Job", {for: "job-picker"});
    const ask_ = element("div", "ask");
    ask_.append(this.picker);
    this.pick = element("div", "field");
    this.pick.append(label, ask_);
    this.file = element("input", "", "", {type: "file", accept: ".json,.txt,application/json,text/plain", "data-act": "file", "aria-label": "Job file", hidden: ""});
    this.acts = element("div", "acts");
    this.question = element("div", "desk__ask", "", {role: "group"});
    this.said = element("p", "", "", {role: "status", "data-slot": "said"});
    this.trouble = element("div", "", "", {role: "alert", "data-slot": "trouble"});
    this.engine = element("p", "hint", "", {"data-slot": "engine"});
    this.house = element("div", "", "", {"data-slot": "house"});
    this.desk = element("div", "desk noprint");
    this.desk.append(this.pick, this.acts, this.file, this.question, this.said, this.trouble, this.engine, this.house);
    this.sheet.before(this.desk);
  }

  // Taking a job in hand -----------------------------------------------------------------------------------------------

  take(id) {
    clearTimeout(this.timer);
    this.turn++;
    this.record = id ? load(id) : null;
    this.broken = id && !this.record ? id : "";
    if (!this.broken) choose(this.record ? id : "");
    for (const slot of [this.question, this.trouble, this.house]) slot.replaceChildren();
    this.said.textContent = "";
    this.choices();
    for (const part of document.querySelectorAll("[data-example-only]")) part.hidden = Boolean(this.record || this.broken);
    if (this.broken) {
      this.sheet.replaceChildren();
      this.say("This job cannot be read. It was not changed: save what is there as a file, or delete it.");
    } else if (this.record) {
      this.head();
      this.workOut(true);
    } else this.sheet.replaceChildren(...this.example);
    if (!this.record) waited();
  }

  choices() {
    const all = jobs();
    const own = this.record?.id ?? this.broken;
    const rows = all.map((job) => [job.id, job.title]);
    if (this.record && !all.some((job) => job.id === own)) rows.unshift([own, `${this.record.file.title} (not kept)`]);
    this.picker.replaceChildren(...[...rows, ["", "The example, Quarry Lane house"]].map(([value, text]) => element("option", "", text, {value})));
    this.picker.value = own;
    this.pick.hidden = !rows.length;
    const acts = own
      ? [["Print", "print", true], ["Print the hand-over", "print-papers"], ["Save as a file", "save"], ["Share", "share"], ["Open a file", "open"], ["New job", "new"], ["Delete", "delete"]]
      : [["New job", "new", true], ["Open a file", "open"], ["Start from the example", "copy"]];
    this.acts.replaceChildren(...acts.filter(([, act]) => !this.broken || !["print", "print-papers", "share"].includes(act)).map((one) => button(...one)));
  }

  head() {
    const head = element("div", "sheet__head");
    head.append(element("p", "", this.record.file.title ?? ""));
    this.sheet.replaceChildren(head, element("p", "stamp", "Worked out on this device; nothing was sent."));
  }

  // Working out --------------------------------------------------------------------------------------------------------

  async asked(request) {
    if (!this.started) {
      this.started = true;
      startEngine({onProgress: (at) => this.progress(at), onReady: () => this.engine.replaceChildren(), onFail: ({final}) => final && this.engine.replaceChildren(NO_ENGINE)});
    }
    try {
      const answer = await ask({stage: "job", limit: LIMIT, uid: `job-${request.do}`, today: today(), ...request});
      if (answer?.fault) throw new Error(answer.fault);
      return answer;
    } catch (error) {
      console.error(error);
      this.engine.textContent = NO_ENGINE;
      return null;
    }
  }

  progress({stage, done, total}) {
    const part = total > 0 ? `: ${Math.min(99, Math.floor((100 * done) / total))} %` : "";
    this.engine.textContent = {fetching: `Getting the calculators${part}.`, starting: "Starting the calculators."}[stage] ?? "";
  }

  async workOut(anew = false) {
    await this.renew(anew);
    waited();
  }

  async renew(anew) {
    const {record, turn} = this;
    const [answer, addresses] = await Promise.all([this.asked({do: "sheet", file: record.file}), pages()]);
    if (!answer || turn !== this.turn || record !== this.record) return;
    this.engine.replaceChildren();
    if (!answer.ok) return this.problems("This job cannot be worked out as it stands.", answer.problems);
    this.trouble.replaceChildren();
    if (answer.file) this.keep(answer.file, false);
    this.csv = answer.csv;
    showParts(this.sheet, answer, record.file, addresses);
    this.sheet.querySelector(".sheet__head p").textContent = answer.title;
    this.sheet.querySelector(".stamp").textContent = answer.stamp;
    if (anew) this.house.replaceChildren(new DOMParser().parseFromString(answer.form, "text/html").body.firstElementChild);
  }

  problems(lead, found) {
    const list = element("ul", "plain");
    for (const {label, text, calculator} of found) {
      const row = element("li", "", `${label}: ${text}`);
      if (calculator && this.record?.file.inputs?.[calculator]) {
        const off = button("Take this calculator off the sheet", "drop");
        off.dataset.calculator = calculator;
        row.append(" ", off);
      }
      list.append(row);
    }
    this.trouble.replaceChildren(element("p", "wrong", lead), list);
  }

  // Typing and keeping -------------------------------------------------------------------------------------------------

  typed(control) {
    if (control === this.picker) return this.take(control.value);
    if (control === this.file) return this.open(control.files[0]);
    if (!this.record) return;
    const {file} = this.record;
    if (control.dataset.write) this.keep(write(file, control));
    else if (control.dataset.house) this.keep(this.houseNow(control));
    else return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.workOut(), AFTER);
  }

  houseNow(control) {
    const form = this.house.querySelector("[data-house-form]");
    const rules = [...form.querySelectorAll("[data-house=rules]:checked")];
    if (rules.length > 2) {
      control.checked = false;
      this.say("At most two rule packs are compared at once.");
    }
    const labels = [...this.sheet.querySelectorAll("[data-write]")].map((one) => one.dataset.write);
    const next = houseOf(this.record.file, form, labels);
    this.sheet.querySelector(".sheet__head p").textContent = next.title;
    const option = [...this.picker.options].find((one) => one.value === this.record.id);
    if (option) option.textContent = next.title;
    return next;
  }

  keep(file, count = true) {
    if (count) this.turn++;
    try {
      save(this.record, file);
      this.warn("");
    } catch (error) {
      this.record.file = file;
      this.warn(error.message, error.kind);
    }
  }

  warn(text, kind = "") {
    if (!text) {
      if (this.warned) this.question.replaceChildren();
      this.warned = false;
      return;
    }
    this.warned = true;
    const acts = element("div", "acts");
    if (kind === "elsewhere") acts.append(button("Show the other tab's", "reload", true));
    if (["elsewhere", "gone"].includes(kind)) acts.append(button("Keep mine as a job of its own", "fork"));
    else acts.append(button("Save as a file", "save", true));
    this.question.replaceChildren(element("p", "wrong", text, {role: "alert"}), acts);
  }

  elsewhere({key}) {
    if (key !== null && !String(key).startsWith(keyOf(""))) return;
    const own = this.record?.id;
    if (own && (key === null || key === keyOf(own))) {
      const newer = load(own);
      if (newer?.mark === this.record.mark) return;
      const inside = [this.desk, this.sheet].some((place) => place.contains(document.activeElement));
      const typing = this.warned || (document.hasFocus() && inside);
      if (newer && !typing) {
        this.take(own);
        this.say("Changed in another tab; this is the newest.");
      } else this.warn(newer ? "This job was changed in another tab. Nothing was overwritten." : "This job was deleted in another tab.", newer ? "elsewhere" : "gone");
    } else this.choices();
  }

  // Buttons ------------------------------------------------------------------------------------------------------------

  clicked(pressed) {
    const act = pressed?.dataset.act;
    if (!act) return;
    if (act === "print") print();
    else if (act === "print-papers") this.printPapers();
    else if (act === "open") this.file.click();
    else if (act === "new") this.begin(blank());
    else if (act === "copy") this.copy();
    else if (act === "save") this.say(`${this.record ? saveJob(this.record.file) : saveAsFile("job", rawText(this.broken))} was saved.`);
    else if (act === "csv") this.say(`${saveAsFile(`${this.record.file.title} materials`, this.csv, "csv", "text/csv")} was saved.`);
    else if (act === "share") shareJob(this.record.file).then((text) => this.say(text));
    else if (act === "delete") this.askDelete();
    else if (act === "really") this.deleteNow();
    else if (act === "not") this.question.replaceChildren();
    else if (act === "reload") this.take(this.record.id);
    else if (act === "fork") this.begin({...this.record.file, title: `${this.record.file.title} (mine)`});
    else if (act === "drop") this.drop(pressed.dataset.calculator);
  }

  // Labels, records, dates and the owner's sheet without the calculators' parts.
  printPapers() {
    this.sheet.dataset.only = "papers";
    addEventListener("afterprint", () => delete this.sheet.dataset.only, {once: true});
    print();
  }

  say(text) {
    this.said.textContent = text;
  }

  begin(file, words = "") {
    this.warned = false;
    try {
      const record = create(file);
      this.take(record.id);
      if (words) this.say(words);
    } catch (error) {
      this.record = {id: "page-only", mark: "", file};
      this.broken = "";
      this.turn++;
      this.house.replaceChildren();
      for (const part of document.querySelectorAll("[data-example-only]")) part.hidden = true;
      this.choices();
      this.head();
      this.warn(error.message, error.kind);
      this.workOut(true);
    }
  }

  async copy() {
    const answer = await this.asked({do: "example"});
    if (answer?.ok) this.begin(answer.file, "This is a copy of the example. Change it as you like.");
  }

  // A file is looked through whole by the calculators before anything is kept; what is here already is never overwritten.
  async open(chosen) {
    if (!chosen) return;
    this.file.value = "";
    this.trouble.replaceChildren();
    this.say(`Reading ${chosen.name}.`);
    try {
      const file = await readFile(chosen);
      const answer = await this.asked({do: "sheet", file, uid: "job-open"});
      this.say("");
      if (!answer) return this.problems(`${chosen.name} was not opened. Nothing was changed.`, [{label: "The calculators", text: "They check a file before it is opened, and did not start."}]);
      if (!answer.ok) return this.problems(`${chosen.name} was not opened. Nothing was changed.`, answer.problems);
      const title = String(file.title?.value ?? file.title ?? "Job");
      const twin = jobs().some((job) => job.title === title);
      this.begin({...file, title: twin ? `${title} (opened ${today()})`.slice(0, 200) : title}, `${chosen.name} was opened${twin ? " beside the job of the same name" : ""}.`);
    } catch (error) {
      if (!(error instanceof FileError)) throw error;
      this.say("");
      this.problems("Nothing was opened, and nothing was changed.", [{label: "The file", text: error.message}]);
    }
  }

  askDelete() {
    const title = this.record?.file.title ?? "what is kept of this job";
    const acts = element("div", "acts");
    acts.append(button("Delete it", "really"), button("Keep it", "not", true));
    this.question.replaceChildren(element("p", "", `Delete ${title} from this browser? It cannot be brought back, except from a file.`), acts);
    acts.lastElementChild.focus();
  }

  deleteNow() {
    const title = this.record?.file.title ?? "The job";
    remove(this.record?.id ?? this.broken);
    this.take(jobs()[0]?.id ?? "");
    this.say(`${title} is deleted.`);
  }

  async drop(calculator) {
    const {record} = this;
    const answer = await this.asked({do: "drop", file: record.file, calculator});
    if (!answer?.ok || record !== this.record) return;
    this.keep(answer.file);
    this.workOut();
  }
}

const place = document.querySelector("[data-sheet]");
if (place) new Desk(place);
