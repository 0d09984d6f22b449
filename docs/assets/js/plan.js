// Points of a plan that can be moved: a move only writes the numbers of the form, and the calculator draws the plan anew.
// Which points there are, where they stand and what they are called comes with the drawing.

import {find, set} from "./fields.js";

const LARGE = 5; // steps of an arrow key with Shift
const LONG = 400; // ms after which a plan that has not come is said to be on its way
const KEYS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1]};

export class Plan {
  constructor(section, form) {
    this.form = form;
    this.slot = section.querySelector("[data-slot=drawing]");
    this.shown = false;
    this.drag = this.focused = null;
    this.slot.addEventListener("click", (event) => event.target.closest("[data-act=points]") && this.show(!this.shown));
    this.slot.addEventListener("pointerdown", (event) => this.grip(event));
    this.slot.addEventListener("pointermove", (event) => this.pull(event));
    for (const end of ["pointerup", "pointercancel"]) this.slot.addEventListener(end, () => this.release());
    this.slot.addEventListener("keydown", (event) => this.key(event));
    this.slot.addEventListener("focusin", ({target}) => (this.focused = target.dataset.point ?? null));
    this.slot.addEventListener("focusout", ({relatedTarget}) => relatedTarget && (this.focused = null));
    new MutationObserver(() => this.redrawn()).observe(this.slot, {childList: true});
    form.addEventListener("input", () => this.busy(true));
    new MutationObserver(() => this.busy(false)).observe(section.querySelector("[data-slot=stale]"), {childList: true});
    this.redrawn();
  }

  // A plan that is long in coming, as when test holes are fitted on a slow phone, says so; a refusal ends it too.
  busy(waiting) {
    clearTimeout(this.waited);
    this.holder?.querySelector("[data-busy]").toggleAttribute("hidden", true);
    if (waiting) this.waited = setTimeout(() => this.holder?.querySelector("[data-busy]").removeAttribute("hidden"), LONG);
  }

  show(shown) {
    this.shown = shown;
    this.redrawn();
  }

  // A new drawing, or the switch: the points are put over it, and the one in use stays in use.
  redrawn() {
    this.holder = this.slot.querySelector("[data-plan]");
    if (!this.holder) return;
    clearTimeout(this.waited);
    this.plan = JSON.parse(this.holder.dataset.plan);
    const button = this.holder.querySelector("[data-act=points]");
    button.hidden = false;
    button.setAttribute("aria-pressed", String(this.shown));
    this.holder.querySelector(".hint:not([data-busy])").hidden = !this.shown;
    this.holder.querySelector(".rings")?.remove();
    if (!this.shown) return;
    const layer = document.createElement("div");
    layer.className = "rings";
    layer.style.aspectRatio = `${this.plan.width} / ${this.plan.height}`;
    layer.append(...this.plan.points.filter(({x, y}) => this.box(x) && this.box(y)).map((point) => this.ring(point)));
    this.holder.querySelector("figure").prepend(layer);
    if (this.focused && (document.activeElement === document.body || !document.activeElement)) this.ringOf(this.focused)?.focus({preventScroll: true});
    if (this.drag) this.ringOf(this.drag.key)?.classList.add("is-held");
  }

  ring(point) {
    const ring = document.createElement("button");
    ring.type = "button";
    ring.dataset.point = point.x;
    this.place(ring, point);
    return ring;
  }

  place(ring, point) {
    ring.style.left = `${(100 * point.on[0]) / this.plan.width}%`;
    ring.style.top = `${(100 * point.on[1]) / this.plan.height}%`;
    const [across, up] = point.size ? ["width", "depth"] : ["x", "y"];
    ring.setAttribute("aria-label", `${point.name}: ${across} ${point.at[0]} ${this.plan.unit}, ${up} ${point.at[1]} ${this.plan.unit}`);
  }

  box(path) {
    return find(this.form, "path", path);
  }

  ringOf(key) {
    return this.holder.querySelector(`.rings [data-point="${CSS.escape(key)}"]`);
  }

  pointOf(key) {
    return this.plan.points.find((point) => point.x === key);
  }

  // Rings may lie on each other: the one whose middle is nearest is taken.
  grip(event) {
    if (!event.target.dataset?.point || event.button > 0) return;
    const away = (ring) => {
      const {left, top, width, height} = ring.getBoundingClientRect();
      return Math.hypot(event.clientX - left - width / 2, event.clientY - top - height / 2);
    };
    const rings = [...this.holder.querySelectorAll(".rings [data-point]")];
    const ring = rings.reduce((best, one) => (away(one) < away(best) - 0.5 ? one : best));
    const point = this.pointOf(ring.dataset.point);
    const layer = ring.parentElement.getBoundingClientRect();
    event.preventDefault();
    ring.focus({preventScroll: true});
    ring.classList.add("is-held");
    this.slot.setPointerCapture(event.pointerId);
    this.drag = {key: point.x, at: [...point.at], from: [event.clientX, event.clientY], per: (this.plan.per * layer.width) / this.plan.width};
  }

  pull(event) {
    if (!this.drag) return;
    const {key, at, from, per} = this.drag;
    this.move(this.pointOf(key), at[0] + (event.clientX - from[0]) / per, at[1] - (event.clientY - from[1]) / per);
  }

  release() {
    if (this.drag) this.ringOf(this.drag.key)?.classList.remove("is-held");
    this.drag = null;
  }

  key(event) {
    const by = KEYS[event.key];
    const point = by && event.target.dataset.point && this.pointOf(event.target.dataset.point);
    if (!point || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const steps = this.plan.step * (event.shiftKey ? LARGE : 1);
    this.move(point, point.at[0] + by[0] * steps, point.at[1] + by[1] * steps);
  }

  // A box of a table has the unit of the chosen system, which may have changed since the plan was drawn.
  own(box) {
    return box.dataset[this.form.querySelector("[data-units]:checked")?.value] === this.plan.unit;
  }

  // Only what has moved by a step is written; a number that was typed finer keeps its figures until then.
  move(point, x, y) {
    if (!point) return;
    const {step, unit, per} = this.plan;
    [x, y].forEach((wanted, i) => {
      let value = Number((Math.round(wanted / step) * step).toFixed(3));
      if (point.size) value = Math.max(value, step);
      if (Math.abs(value - point.at[i]) < step / 2) return;
      const box = this.box(i ? point.y : point.x);
      point.on[i] += (i ? -per : per) * (value - point.at[i]);
      point.at[i] = value;
      set(box, this.own(box) ? String(value) : `${value} ${unit}`);
      box.dispatchEvent(new Event("input", {bubbles: true}));
    });
    const ring = this.ringOf(point.x);
    if (ring) this.place(ring, point);
  }
}
