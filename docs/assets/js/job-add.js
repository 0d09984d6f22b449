// On a calculator's page: puts its numbers on the job sheet, and takes from the sheet what the job knows already.

import {EngineError, ask} from "./engine.js";
import {find} from "./fields.js";
import {blank, choose, create, current, load, save} from "./job-store.js";
import {fromAddress} from "./permalink.js";

const sheetPage = () => new URL("job-sheet/", window.__md_scope).href;

class Adder {
  constructor(section) {
    this.section = section;
    this.form = section.querySelector("form.numbers");
    const button = element("button", "act act--main", "Add to job sheet");
    button.type = "button";
    button.dataset.act = "job";
    button.addEventListener("click", () => this.add());
    const acts = element("div", "acts");
    acts.append(button);
    this.said = element("p", "small");
    this.said.setAttribute("role", "status");
    this.said.dataset.slot = "job";
    this.form.append(acts, this.said);
    this.prefill();
  }

  // What the form holds and how to fill it; the form's own script answers.
  example() {
    let answer = null;
    this.section.dispatchEvent(new CustomEvent("underslab:example", {detail: (given) => { answer = given; }}));
    return answer;
  }

  say(text, title = "") {
    this.said.replaceChildren(text);
    if (!title) return;
    const link = element("a", "", "Job sheet");
    link.href = sheetPage();
    this.said.append(" ", link);
  }

  ask(request) {
    return ask({stage: "job", limit: 30_000, calculator: this.section.dataset.calculator, uid: `job-${this.section.dataset.uid}-${request.do}`, ...request});
  }

  async prefill() {
    const record = load(current());
    if (!record) return;
    const title = String(record.file.title ?? "");
    this.say(`The job in hand: ${title}.`, title);
    let answer = null;
    try {
      answer = await this.ask({do: "prefill", file: record.file});
    } catch (error) {
      console.error(error);
      return;
    }
    if (!answer?.ok || !Object.keys(answer.inputs).length) return;
    const example = this.example();
    if (!fromAddress()) {
      example.open({units: example.request.units, inputs: answer.inputs});
      this.say(`These are the numbers of ${title}, from the job sheet. What it does not hold yet is empty.`, title);
    }
    for (const [field, text] of Object.entries(answer.from)) this.mark(field, text);
  }

  mark(field, text) {
    const place = find(this.form, "at", field) ?? find(this.form, "path", field);
    if (!place || place.querySelector(".from-job")) return;
    (place.localName === "input" ? place.parentElement : place).append(element("p", "hint from-job", text));
  }

  async add() {
    const example = this.example();
    const record = load(current());
    const file = record?.file ?? blank();
    let answer;
    try {
      answer = await this.ask({do: "add", file, inputs: example.request.inputs});
    } catch (error) {
      console.error(error);
      return this.say(error instanceof EngineError ? "The calculator did not start or took too long, so nothing was added." : "Nothing was added.");
    }
    if (!answer) return;
    if (answer.fault) return this.say("The calculator could not work this out. Nothing was added.");
    if (!answer.ok) return this.say(`Not added. ${answer.problems.map(({label, text}) => `${label}: ${text}`).join(" ")}`);
    try {
      if (record) save(record, answer.file);
      else create(answer.file);
    } catch (error) {
      const again = error.kind === "elsewhere" ? " Press again to add to the newer one." : "";
      if (error.kind === "gone") choose("");
      return this.say(`Not added. ${error.message}${again}`);
    }
    this.say([`Added to ${answer.file.title}.`, ...answer.said].join(" "), answer.file.title);
  }
}

function element(tag, name, text = "") {
  const made = document.createElement(tag);
  if (name) made.className = name;
  made.textContent = text;
  return made;
}

for (const section of document.querySelectorAll("section.worked[data-calculator]")) new Adder(section);
