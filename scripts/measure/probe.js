// Put into each measured page before its own scripts: edits a field as early as a person could, sees when the answer
// stands there, and times keys after that. Filled in: WANTED {field, answer, value, expect}.
(() => {
  if (window !== window.top || location.protocol === "about:") return;
  const WANTED = __WANTED__;
  const LONGEST = 120_000; // ms
  const tasks = [];
  try {
    new PerformanceObserver((list) => tasks.push(...list.getEntries().map((entry) => entry.duration)))
      .observe({type: "longtask", buffered: true});
  } catch { /* told as no long task */ }
  const find = (selector) => document.querySelector(selector);
  const text = () => find(WANTED.answer)?.textContent.trim() ?? "";
  const frame = () => new Promise((done) => requestAnimationFrame(() => setTimeout(() => done(performance.now()), 0)));
  const pause = (ms) => new Promise((done) => setTimeout(done, ms));

  function type(value) {
    const field = find(WANTED.field);
    field.value = value;
    field.dispatchEvent(new Event("input", {bubbles: true}));
  }

  // The next time that the answer is put, whether it reads the same or not.
  const put = (late) => new Promise((done) => {
    const seen = new MutationObserver(() => end(performance.now()));
    const timer = setTimeout(() => end(null), late);
    const end = (when) => {
      seen.disconnect();
      clearTimeout(timer);
      done(when);
    };
    seen.observe(find(WANTED.answer), {childList: true, characterData: true, subtree: true});
  });

  let readable = null; // the frame after the worked example stood there, as the page was built
  async function read() {
    while (!text()) await frame();
    readable = performance.now();
  }

  async function first() {
    read();
    while (document.readyState === "loading" || !find(WANTED.field) || find(WANTED.field).matches(":disabled")) await frame();
    const usable = performance.now();
    find(WANTED.field).scrollIntoView({block: "center"}); // where it stands for who types in it
    let typed = -1e9;
    let changed = false; // without a known text: the answer was put, whether it reads the same or not
    put(LONGEST).then((when) => { changed = when !== null; });
    const there = () => (WANTED.expect ? text() === WANTED.expect : changed && text() !== "");
    if (WANTED.expect && there()) throw new Error("the answer stood there before the edit");
    while (!there()) {
      if (performance.now() > LONGEST) throw new Error(`no answer to ${WANTED.value} in ${WANTED.field}`);
      if (performance.now() - typed > 250) { // again, in case the page lost the first one
        typed = performance.now();
        type(WANTED.value);
      }
      await frame();
    }
    return {readable, usable, answered: await frame(), text: text(), longest: Math.max(0, ...tasks)};
  }

  async function keys(values, gap) {
    tasks.length = 0;
    const times = [];
    for (const value of values) {
      const start = performance.now();
      const answered = put(8000);
      type(value);
      const when = await answered;
      times.push([when === null ? null : when - start, (await frame()) - start]);
      await pause(gap);
    }
    return {times, longest: Math.max(0, ...tasks)};
  }

  window.bench = {first: first(), keys};
})();
