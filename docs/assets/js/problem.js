// One practice problem on a page: shows it, collects the answer, asks Python for the mark and for the working.
// Texts, keys and tolerances all come from there.

import {EngineError, ask} from "./engine.js";

let number = 0;

export async function request(op, more = {}) {
  try {
    const answer = await ask({stage: "practice", limit: 15_000, uid: `q${++number}`, op, ...more});
    return answer ?? {ok: false, text: "Another request took its place."};
  } catch (error) {
    return {ok: false, text: error instanceof EngineError ? error.message : "The calculator could not work this out."};
  }
}

export function nodes(html) {
  const parsed = new DOMParser().parseFromString(html, "text/html");
  return [...parsed.body.childNodes].map((node) => document.importNode(node, true));
}

export function element(tag, text, attributes = {}) {
  const made = document.createElement(tag);
  if (text !== undefined) made.textContent = text;
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  return made;
}

export function button(text, act, main = false) {
  return element("button", text, {type: "button", class: main ? "act act--main" : "act", "data-act": act});
}

// What the learner gave, in the form that the marking reads.
export function given(section) {
  const boxes = [...section.querySelectorAll("[data-answer]")];
  if (section.dataset.kind === "number") {
    const {value, dataset: {unit}} = boxes[0];
    return value.trim() && unit && !/[a-zA-Z%'"°]/.test(value.replace(/e[-+]?\d+/i, "")) ? `${value.trim()} ${unit}` : value.trim();
  }
  if (section.dataset.kind === "order") {
    const placed = boxes.map((box) => [Number(box.value), Number(box.dataset.place)]);
    if (placed.some(([place]) => !place)) return null;
    return placed.sort((a, b) => a[0] - b[0]).map(([, step]) => step);
  }
  if (section.dataset.kind === "house") {
    return [...section.querySelectorAll("[data-decision]")].map((one) => one.querySelector("[data-answer]:checked")?.value ?? null).map((way) => (way === null ? null : Number(way)));
  }
  const chosen = boxes.filter((box) => box.checked).map((box) => Number(box.value));
  return section.dataset.kind === "several" ? chosen : chosen[0] ?? null;
}

// Puts a problem into a place and wires it. onMark({verdict, credit, slip}) hears every marked answer.
export function wire(section, {onMark, marking = true} = {}) {
  const form = section.querySelector("form"), place = section.querySelector("[data-slot=diagnosis]");
  const problem = section.dataset.problem;
  place.setAttribute("role", "group");
  place.setAttribute("aria-live", "polite");
  const put = (html) => {
    place.hidden = false;
    place.replaceChildren(...nodes(html));
  };
  if (!marking) {
    section.querySelector(".acts").remove();
    form.addEventListener("submit", (event) => event.preventDefault());
    return;
  }
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const answer = await request("mark", {problem, given: given(section)});
    if (!answer.ok) return place.replaceChildren(element("p", answer.text)), void (place.hidden = false);
    put(answer.html);
    onMark?.(answer);
  });
  section.querySelector("[data-act=working]").addEventListener("click", async () => {
    const answer = await request("working", {problem});
    put(answer.ok ? answer.html : "");
    if (!answer.ok) place.replaceChildren(element("p", answer.text));
    place.scrollIntoView({block: "nearest"});
  });
}
