// The theme's own script is wanted for the full-text search alone: it comes when somebody turns to that.

const form = document.forms.namedItem("search");
const toggle = document.getElementById("__search");
const KEYS = ["/", "f", "s"]; // the theme's
let asked = false;

function load() {
  if (asked) return;
  asked = true;
  const script = document.createElement("script");
  script.src = form.dataset.script;
  document.body.append(script);
}

function pressed(event) {
  const {key, target} = event;
  if (!KEYS.includes(key) || event.ctrlKey || event.metaKey || event.altKey) return;
  if (target.isContentEditable || target.closest("input, select, textarea")) return;
  event.preventDefault();
  if (form.query.checkVisibility({visibilityProperty: true})) form.query.focus();
  else toggle.click(); // on a phone it is put away until it is opened
}

if (form) {
  form.addEventListener("focusin", load);
  form.addEventListener("submit", (event) => event.preventDefault()); // Enter before that script has come sends nothing
  toggle.addEventListener("change", ({target}) => target.checked && form.query.focus());
  document.addEventListener("keydown", pressed);
}
