// What every page has before anything else runs: what may become markup, where the site starts, the theme's small store of
// settings. One name per function, as the theme's bundle calls them; the site's start is handed over in data-scope.
import "./trusted.js";

document.documentElement.classList.replace("no-js", "js");
// What takes the place of something that the page was built with, before anything is painted: a paper that came by link, in
// that of the learner's own practice; the reader's own job, in that of the example.
document.documentElement.classList.toggle("has-paper", location.hash.startsWith("#p="));
try {
  document.documentElement.classList.toggle("waits-for-job", Boolean(localStorage.getItem("underslab:job-now"))); // see job-store.js
} catch {
  // no storage allowed: no job is kept
}
// Fields are the dearest part of a page: they are laid out by themselves when the words stand there.
addEventListener("DOMContentLoaded", () => requestAnimationFrame(() => setTimeout(() => document.documentElement.classList.add("whole"))));
window.__md_scope = new URL(document.currentScript.dataset.scope, location);
window.__md_hash = (text) => [...text].reduce((sum, c) => (sum << 5) - sum + c.charCodeAt(0), 0);
window.__md_get = (key, store = localStorage, scope = window.__md_scope) => {
  try {
    return JSON.parse(store.getItem(scope.pathname + "." + key));
  } catch {
    return null; // no storage allowed, or something else's text under our key
  }
};
window.__md_set = (key, value, store = localStorage, scope = window.__md_scope) => {
  try {
    store.setItem(scope.pathname + "." + key, JSON.stringify(value));
  } catch {
    // no storage allowed: the setting holds for this page only
  }
};
