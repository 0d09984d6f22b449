// The learner's practice: one part after the other, slips told at once, repeats spaced over days. Kept in this browser only.

import {startEngine} from "./engine.js";
import {button, element, given, nodes, request, wire} from "./problem.js";

const KEPT = "underslab:practice";
const ENOUGH = 4; // problems right in a part, before it counts as practised
const PAPER = "underslab:paper";
const LONGEST = 20_000; // characters of a paper's link
const DAYS = [0, 1, 3, 7, 21]; // until the next repeat, after that many right answers in a row
const root = document.querySelector("[data-practice]");

// What is kept may have been written by an older version, another page of this host, or by hand: rows of another shape are
// left out, and a text that cannot be read at all is put aside before anything is written over it.
function load() {
  let text = null;
  try {
    text = localStorage.getItem(KEPT);
    const kept = JSON.parse(text ?? "{}");
    if (isObject(kept)) return Object.fromEntries(Object.entries(kept).filter(([, one]) => isRow(one)));
  } catch { /* no storage, or no JSON */ }
  try {
    if (text) localStorage.setItem(`${KEPT}:unread`, text);
  } catch { /* no room: then it cannot be kept twice */ }
  return {};
}

const isObject = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
const isCount = (value) => Number.isInteger(value) && value >= 0;
const isRow = (one) => isObject(one) && isCount(one.row) && one.row < DAYS.length && isCount(one.tries) && typeof one.due === "string"
  && isObject(one.slips) && Object.values(one.slips).every(isCount);

function save(progress) {
  try {
    localStorage.setItem(KEPT, JSON.stringify(progress));
    return true;
  } catch {
    return false;
  }
}

const today = () => new Date().toISOString().slice(0, 10);
const later = (days) => new Date(Date.now() + days * 864e5).toISOString().slice(0, 10);
// A day further off than any repeat is set was written under a wrong clock.
const isDue = ({due}) => due <= today() || due > later(DAYS.at(-1));
const units = () => {
  try {
    return localStorage.getItem("underslab:units") === "si" ? "si" : "us";
  } catch {
    return "us";
  }
};

class Practice {
  constructor() {
    this.progress = load();
    this.place = root.querySelector("[data-slot=problem]");
    this.state = root.querySelector("[data-slot=state]");
    this.links = [...root.querySelectorAll("[data-template]")];
    for (const item of this.links) {
      const open = button(item.textContent, "open");
      open.className = "link-button";
      open.addEventListener("click", () => this.open(item.dataset.template));
      item.replaceChildren(open, element("span", "", {class: "done"}));
    }
    root.querySelector("[data-act=next]").addEventListener("click", () => this.next());
    root.querySelector("[data-act=forget]").addEventListener("click", () => this.forget());
    this.show();
  }

  of(id) {
    return Object.hasOwn(this.progress, id) ? this.progress[id] : {row: 0, tries: 0, due: "", slips: {}};
  }

  show() {
    for (const item of this.links) {
      const mine = this.of(item.dataset.template);
      item.querySelector(".done").textContent = mine.row > 0 ? (isDue(mine) ? "due again" : "practised") : "";
    }
    for (const part of root.querySelectorAll("[data-part]")) {
      const all = [...part.querySelectorAll("[data-template]")].map((item) => this.of(item.dataset.template));
      const done = all.filter((one) => one.row > 0).length;
      part.querySelector("[data-slot=part-state]").textContent = done ? `${done} of ${all.length} practised` : "not practised yet";
    }
    this.ready();
    const repeated = this.repeated().sort((a, b) => b.count - a.count).slice(0, 8);
    const list = root.querySelector("[data-slot=slips]");
    list.replaceChildren(...repeated.map(({id, name, count, because}) => {
      const line = element("li"), again = button("Practise it", "open");
      again.addEventListener("click", () => this.open(id));
      line.append(element("b", `${this.title(id)}: ${name.replaceAll("-", " ")}, ${count} times.`), ` ${because} `, again);
      return line;
    }));
    list.previousElementSibling.hidden = !repeated.length;
  }

  title(id) {
    return root.querySelector(`[data-template="${CSS.escape(id)}"] button`)?.textContent ?? id;
  }

  // Slips that came more than once, of problems that are still here.
  repeated() {
    return this.links.flatMap(({dataset: {template: id}}) => {
      const {slips = {}, words = {}} = this.of(id);
      return Object.entries(slips).filter(([, count]) => count > 1).map(([name, count]) => ({id, name, count, because: words[name] ?? ""}));
    });
  }

  // Part by part: what was right at the last try, the judgement on what stops the work, slips that came back.
  ready() {
    const open = [], stops = [];
    for (const row of root.querySelectorAll("[data-ready]")) {
      const part = root.querySelector(`[data-part="${row.dataset.ready}"]`);
      const items = [...part.querySelectorAll("[data-template]")];
      const right = items.filter((item) => this.of(item.dataset.template).row > 0);
      const all = items.filter((item) => item.dataset.stop), named = all.filter((item) => right.includes(item));
      const back = this.repeated().filter(({id}) => items.some((item) => item.dataset.template === id));
      const put = (slot, text) => { row.querySelector(`[data-slot=${slot}]`).textContent = text; };
      put("right", `${right.length} of ${items.length}`);
      put("stops", all.length ? `${named.length} of ${all.length}` : "–");
      put("back", back.length ? String(back.length) : "none");
      const title = row.querySelector("a").textContent;
      if (right.length < Math.min(ENOUGH, items.length)) open.push(title);
      if (named.length < all.length) stops.push(title);
    }
    const say = [];
    const named = (titles) => (titles.length > 3 ? `${titles.length} parts` : titles.join(", "));
    if (open.length) say.push(`Fewer than ${ENOUGH} problems right in ${named(open)}.`);
    if (stops.length) say.push(`“What stops the work?” is still open in ${named(stops)}.`);
    if (!say.length) say.push("Every part is practised, and every question on what stops the work was right at the last try.");
    say.push("Your trainer and your state say who may work; this page counts sums.");
    const place = root.querySelector("[data-slot=ready-say]");
    if (place.textContent !== say.join(" ")) place.textContent = say.join(" ");
  }

  next() {
    const open = this.links.map((item) => item.dataset.template);
    const due = open.filter((id) => this.of(id).tries && isDue(this.of(id)));
    const fresh = open.filter((id) => !this.of(id).tries);
    this.open(due[0] ?? fresh[0] ?? open[Math.floor(Math.random() * open.length)]);
  }

  async open(id) {
    const seed = `${Date.now().toString(36)}${Math.floor(Math.random() * 1e6).toString(36)}`;
    this.state.textContent = "One moment.";
    const answer = await request("question", {problem: `${id}/${seed}/${units()}`});
    if (!answer.ok) return void (this.state.textContent = answer.text);
    this.state.textContent = "";
    this.place.replaceChildren(...nodes(answer.html));
    const section = this.place.querySelector("section");
    wire(section, {onMark: (mark) => this.marked(id, mark)});
    const again = button("Another one like it", "again");
    const next = button("Next problem", "next");
    again.addEventListener("click", () => this.open(id));
    next.addEventListener("click", () => this.next());
    section.querySelector(".acts").append(again, next);
    section.querySelector("h3").tabIndex = -1;
    section.querySelector("h3").focus();
  }

  marked(id, {verdict, slip, because}) {
    if (verdict === "unreadable") return;
    const mine = this.of(id);
    mine.tries += 1;
    mine.row = verdict === "right" ? Math.min(mine.row + 1, DAYS.length - 1) : 0;
    mine.due = later(DAYS[mine.row]);
    if (slip) {
      mine.slips = {...mine.slips, [slip]: (mine.slips?.[slip] ?? 0) + 1};
      mine.words = {...mine.words, [slip]: because || "This decision lost most."};
    }
    this.progress[id] = mine;
    if (!save(this.progress)) this.state.textContent = "This browser is full or keeps nothing: progress is not kept.";
    this.show();
  }

  forget() {
    if (!confirm("Forget all progress on this device?")) return;
    this.progress = {};
    save(this.progress);
    this.show();
  }
}

// The answers of the paper in hand, so that a reload or a dead battery loses none: {code, learner, boxes}, the newest paper only.
const answers = {
  read(code) {
    try {
      const kept = JSON.parse(localStorage.getItem(PAPER));
      return kept?.code === code && typeof kept.learner === "string" && Array.isArray(kept.boxes) ? kept : null;
    } catch {
      return null;
    }
  },
  keep(code, learner, list) {
    const boxes = [...list.querySelectorAll("[data-answer]")].map((box) => (/^(checkbox|radio)$/.test(box.type) ? box.checked : box.value));
    try {
      localStorage.setItem(PAPER, JSON.stringify({code, learner, boxes}));
    } catch { /* no room: the page alone holds them */ }
  },
  put(boxes, list) {
    [...list.querySelectorAll("[data-answer]")].forEach((box, i) => {
      if (typeof boxes[i] === "boolean") box.checked = boxes[i];
      else if (typeof boxes[i] === "string") box.value = boxes[i].slice(0, 200);
    });
  },
};

// A paper that came by link: all problems at once, no marks until it is handed in.
function paper(code) {
  const box = root.querySelector("[data-slot=paper]");
  document.documentElement.classList.add("has-paper");
  if (code.length > LONGEST) return void box.replaceChildren(element("p", "This link is too long to be that of a paper."));
  const name = element("input", undefined, {id: "learner", type: "text", autocomplete: "off", maxlength: "60"});
  const begin = button("Begin", "begin", true), said = element("p", "", {role: "status"});
  const kept = answers.read(code);
  name.value = kept?.learner ?? "";
  if (kept) said.textContent = "You have begun this paper. Under the same name your answers are still there.";
  box.replaceChildren(element("h2", "A practice paper"), element("label", "Your name, as your trainer knows it", {for: "learner"}), name, begin, said);
  begin.addEventListener("click", async () => {
    const learner = name.value.trim();
    const answer = await request("open", {code, learner});
    if (!answer.ok) return void (said.textContent = answer.text);
    if (!learner) {
      said.textContent = "Write your name first. Your own numbers come from it, and your trainer finds you by it.";
      return void name.focus();
    }
    said.textContent = "";
    name.disabled = begin.disabled = true;
    const list = element("div");
    list.append(element("p", `${answer.ids.length} problems, ${answer.time} minutes.`));
    for (const html of answer.html) list.append(...nodes(html));
    for (const section of list.querySelectorAll("section[data-problem]")) wire(section, {marking: false});
    if (kept?.learner === learner) answers.put(kept.boxes, list);
    for (const event of ["input", "change"]) list.addEventListener(event, () => answers.keep(code, learner, list));
    const done = button("Hand in", "hand-in", true), out = element("div");
    done.addEventListener("click", async () => {
      const sections = [...list.querySelectorAll("section[data-problem]")];
      const handed = await request("hand-in", {code, learner, given: sections.map(given)});
      if (!handed.ok) return void out.replaceChildren(element("p", handed.text));
      const field = element("textarea", handed.hand_in, {readonly: "", rows: "4", id: "hand-in-code"});
      out.replaceChildren(element("h3", "Your hand-in code"), element("label", "Send this to your trainer. It holds your name and which slips came up.", {for: "hand-in-code"}),
        field, element("p", `${handed.credit.toFixed(1)} of ${handed.of}.`));
      field.select();
    });
    box.append(list, done, out);
  });
}

if (root) {
  startEngine({
    onProgress({stage, done, total}) {
      const part = total > 0 ? ` ${Math.min(99, Math.floor((100 * done) / total))} %` : "";
      root.querySelector("[data-slot=state]").textContent = stage === "fetching" ? `Getting the problems${part}.` : stage === "starting" ? "Starting." : "";
    },
    onReady() {
      root.querySelector("[data-slot=state]").textContent = "";
      request("warm");
    },
    onFail({message}) { root.querySelector("[data-slot=state]").textContent = message; },
  });
  new Practice();
  const open = () => location.hash.startsWith("#p=") && paper(location.hash.slice(3));
  open();
  addEventListener("hashchange", open);
}
