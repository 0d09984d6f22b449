// Explains at the field what was not read, and says above the answer that it is the one from before.

import {find} from "./fields.js";

export function clearProblems(section) {
  if (!section.classList.contains("is-stale")) return;
  section.classList.remove("is-stale");
  section.querySelector("[data-slot=stale]").replaceChildren();
  for (const text of section.querySelectorAll(".wrong")) text.remove();
  for (const place of section.querySelectorAll(".is-wrong")) place.classList.remove("is-wrong");
  for (const control of section.querySelectorAll("[aria-invalid]")) {
    control.removeAttribute("aria-invalid");
    describe(control, null);
  }
}

// problems: [{field, label, said, lead, text}]
export function showProblems(section, problems) {
  clearProblems(section);
  section.classList.add("is-stale");
  const word = section.querySelector(".now .now__w");
  if (word) word.textContent = "old answer";
  const lines = problems.map((problem, i) => {
    const control = find(section, "path", problem.field);
    const place = placeOf(section, problem.field, control);
    return place ? atField(section, problem, i, control, place) : element("p", "stale", `${problem.label}: ${problem.text}`);
  });
  lines.at(-1)?.append(" This is the answer from before that.");
  section.querySelector("[data-slot=stale]").replaceChildren(...lines);
}

// The field itself, else the list or object that it belongs to, if that can be seen.
function placeOf(section, path, control) {
  let place = control?.closest("[data-at]");
  const parts = path.split(/(?=[.[])/); // "openings[0].vertical": openings, [0], .vertical
  for (let length = parts.length; !place && length; length--) place = find(section, "at", parts.slice(0, length).join(""));
  return place && !place.closest("[hidden]") ? place : null;
}

function atField(section, problem, i, control, place) {
  const id = `${section.dataset.uid}-wrong-${i}`;
  const text = element("p", "wrong");
  text.id = id;
  text.append(element("b", "", problem.lead), ` ${problem.text}`);
  place.append(text);
  place.classList.add("is-wrong");
  const folded = place.closest("details");
  if (folded) folded.open = true;
  const focus = [control, place].flatMap((one) => [one, one?.querySelector("input, select, button")]).find((one) => one?.matches?.("input, select, button"));
  if (control) {
    control.setAttribute("aria-invalid", "true");
    describe(control, id);
  }
  const line = element("p", "stale");
  const to = element("a", "", problem.label);
  to.href = `#${focus?.id ?? ""}`;
  to.addEventListener("click", (event) => {
    event.preventDefault(); // the fragment belongs to the link with the numbers
    focus?.focus();
  });
  line.append(focus ? to : problem.label, ` ${problem.said}.`);
  return line;
}

// Adds the text to what describes the control; null takes it off again.
function describe(control, id) {
  const others = (control.getAttribute("aria-describedby") ?? "").split(/\s+/).filter((one) => one && !/-wrong-\d+$/.test(one));
  const all = id ? [...others, id] : others;
  if (all.length) control.setAttribute("aria-describedby", all.join(" "));
  else control.removeAttribute("aria-describedby");
}

function element(tag, name, text = "") {
  const made = document.createElement(tag);
  if (name) made.className = name;
  made.textContent = text;
  return made;
}
