// The trainer's page: choose, preview, link and code to photograph, print, export, collect. Nothing leaves this browser.

import {startEngine} from "./engine.js";
import {element, nodes, request} from "./problem.js";

const CLASS = "underslab:class";
const root = document.querySelector("[data-set-paper]");

const slot = (name) => root.querySelector(`[data-slot=${name}]`);
const chosen = (name) => [...root.querySelectorAll(`input[name=${name}]:checked`)].map((box) => box.value);

function save(name, blob) {
  const link = element("a", "", {href: URL.createObjectURL(blob), download: name});
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

class SetPaper {
  constructor() {
    this.code = "";
    this.form = root.querySelector("form");
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.compose();
    });
    root.addEventListener("click", (event) => this.clicked(event.target.closest("[data-act]")));
    this.names = root.querySelector("#class-list");
    try {
      this.names.value = localStorage.getItem(CLASS) ?? "";
    } catch { /* nothing is kept in this browser */ }
    this.names.addEventListener("input", () => {
      try {
        localStorage.setItem(CLASS, this.names.value.slice(0, 20_000));
      } catch {
        slot("said").textContent = "This browser is full: the class list is not kept.";
      }
    });
  }

  async compose() {
    const box = (name) => root.querySelector(`#${name}`).value.trim();
    const answer = await request("compose", {
      parts: chosen("part"), levels: chosen("level").map(Number), kinds: chosen("kind"), number: Number(box("number")), minutes: Number(box("minutes")) || 0,
      seed: box("seed"), units: chosen("paper-units")[0] ?? "us",
    });
    if (!answer.ok) return void (slot("said").textContent = answer.text);
    this.code = answer.code;
    slot("said").textContent = `${answer.ids.length} problems, ${answer.time} minutes.`;
    const preview = slot("preview");
    preview.replaceChildren();
    for (const html of answer.html) preview.append(...nodes(html));
    for (const acts of preview.querySelectorAll(".acts")) acts.remove();
    for (const form of preview.querySelectorAll("form")) form.addEventListener("submit", (event) => event.preventDefault());
    await this.link();
    root.querySelector("[data-when=paper]").hidden = false;
  }

  get address() {
    return new URL(`../practice/#p=${this.code}`, location.href).href;
  }

  async link() {
    const link = slot("link");
    link.replaceChildren(element("a", this.address, {href: this.address}));
    const place = slot("qr");
    try {
      const {encode} = await import("./vendor/uqr.mjs");
      const {data, size} = encode(this.address, {ecc: "L", border: 2});
      place.replaceChildren(picture(data, size));
    } catch {
      place.replaceChildren(element("p", "The code to photograph could not be drawn for so long a link."));
    }
  }

  async clicked(control) {
    if (!control) return;
    const {act} = control.dataset;
    if (act === "copy") return this.copy();
    if (act === "learners") return this.learners("class");
    if (act === "learners-key") return this.learners("class-key");
    if (act === "collect") return this.collect();
    if (act === "csv" && !this.csv) return void (slot("said").textContent = "Show the results first.");
    if (act === "csv") return save("class.csv", new Blob([this.csv], {type: "text/csv"}));
    const format = {"print-paper": "paper", "print-key": "key", gift: "gift", qti: "qti"}[act];
    if (!format || !this.code) return;
    const answer = await request("export", {code: this.code, format});
    if (!answer.ok) return void (slot("said").textContent = answer.text);
    const bytes = answer.base64 ? Uint8Array.from(atob(answer.base64), (c) => c.charCodeAt(0)) : answer.text;
    save(answer.name, new Blob([bytes], {type: format === "qti" ? "application/zip" : format === "gift" ? "text/plain" : "text/html"}));
  }

  async copy() {
    try {
      await navigator.clipboard.writeText(this.address);
      slot("said").textContent = "The link is copied.";
    } catch {
      slot("said").textContent = "Copy the link by hand.";
    }
  }

  // One file for the whole class: a printer takes it at once, and no browser asks about sixty downloads.
  async learners(format) {
    const names = this.names.value.split("\n").map((name) => name.trim()).filter(Boolean).slice(0, 60);
    if (!names.length) return void (slot("said").textContent = "Write one name a line first.");
    if (!this.code) return void (slot("said").textContent = "Make the paper first.");
    const answer = await request("export", {code: this.code, format, learners: names});
    if (!answer.ok) return void (slot("said").textContent = answer.text);
    save(answer.name, new Blob([answer.text], {type: "text/html"}));
    slot("said").textContent = names.length === 1 ? "One paper was written." : `${names.length} papers were written into one file, each on its own pages.`;
  }

  async collect() {
    const codes = root.querySelector("#codes").value.split(/\s+/).filter(Boolean);
    const typed = root.querySelector("#paper-code").value.trim().replace(/^.*#p=/, ""); // the whole link will do
    const place = slot("table");
    if (!typed && !this.code) return void place.replaceChildren(element("p", "Make the paper again, or write its link or code into the box above."));
    const answer = await request("collect", {code: typed || this.code, codes});
    if (!answer.ok) return void place.replaceChildren(element("p", answer.text));
    this.csv = answer.csv;
    const table = element("table", undefined, {class: "plain"}), head = element("tr");
    for (const title of ["Name", "Counted", ...answer.titles]) head.append(element("th", title, {scope: "col"}));
    table.append(element("thead"));
    table.tHead.append(head);
    const body = element("tbody");
    for (const row of answer.rows) {
      const line = element("tr");
      line.append(element("th", row.name, {scope: "row"}), element("td", String(row.credit)), ...row.verdicts.map((verdict) => element("td", verdict)));
      body.append(line);
    }
    table.append(body);
    const frame = element("div", undefined, {class: "table", tabindex: "0", role: "region", "aria-label": "Results of the class"});
    frame.append(table);
    const slips = element("ul", undefined, {class: "plain"});
    for (const {problem, slip, count} of answer.slips) slips.append(element("li", `${problem}: ${slip}, ${count === 1 ? "once" : `${count} times`}`));
    const refused = answer.refused.map(({code, text}) => element("p", `${code}…: ${text}.`));
    place.replaceChildren(frame, element("h3", "Slips by how often they came"), answer.slips.length ? slips : element("p", "None that is known."), ...refused);
  }
}

// The square code as one SVG path; dark squares only.
function picture(data, size) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("viewBox", `0 0 ${size} ${size}`);
  svg.setAttribute("class", "qr");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", "The link of this paper as a code to photograph");
  const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
  path.setAttribute("d", data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ""))).join(""));
  svg.append(path);
  return svg;
}

if (root) {
  startEngine({
    onFail({message}) { slot("said").textContent = message; },
    onReady() {
      slot("said").textContent = "Ready.";
      request("warm");
    },
  });
  new SetPaper();
}
