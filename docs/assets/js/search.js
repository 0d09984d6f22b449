// The theme's own script is wanted for the full-text search alone: it comes when somebody turns to that.

const form = document.forms.namedItem("search");
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
  if (asked || !KEYS.includes(key) || event.ctrlKey || event.metaKey || event.altKey) return;
  if (target.isContentEditable || target.closest("input, select, textarea")) return;
  event.preventDefault();
  form.query.focus();
}

if (form) {
  form.addEventListener("focusin", load);
  document.getElementById("__search").addEventListener("change", ({target}) => target.checked && form.query.focus());
  document.addEventListener("keydown", pressed);
}
