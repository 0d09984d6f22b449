// Has the whole site kept on the device, says in the foot how far that is, and lets the reader take a new version.
// sw.js at the site's root does the keeping; what the two say to each other stands at its top.
{
  const line = document.getElementById("offline-state");
  const button = document.getElementById("offline-use");
  const workers = navigator.serviceWorker;
  const READY = "Ready for the basement.";
  const BROKEN_OFF = "Not kept yet: the download broke off. It goes on at the next visit.";
  const FULL = "Not kept: there is too little room on this device. Make room, then open this page again.";
  const STILL = 1500; // ms without a key until something is fetched or kept: both slow an answer down
  const MISSING = "Some files are missing here and are fetched again.";
  let taken = false; // the reader asked for the new version: one reload then
  let controlled = Boolean(workers?.controller);
  let brokenOff = BROKEN_OFF;
  let ready = READY;
  let coming = null; // the worker that fetches the files now
  let typed = -STILL; // when a key was pressed last
  let told = -STILL; // when the worker that fetches was told to wait

  if (line && button) {
    if (!workers || !isSecureContext) say("Needs a network: this browser keeps nothing here.");
    else begin().catch(broken);
  }

  function say(text) {
    if (line.textContent !== text) line.textContent = text;
  }

  function offer(words, act) {
    button.textContent = words;
    button.hidden = false;
    button.onclick = () => {
      button.hidden = true;
      act();
    };
  }

  function broken(error) {
    console.error(error);
    say("Needs a network: nothing could be kept on this device.");
  }

  async function begin() {
    workers.addEventListener("message", ({data}) => heard(data ?? {}));
    workers.addEventListener("controllerchange", () => {
      if (taken) location.reload();
      else if (controlled) offer("Load this page anew", () => location.reload()); // a new version was taken in another tab
      controlled = true;
      askState();
    });
    const known = await workers.getRegistration(window.__md_scope);
    if (known?.active) return keep();
    say("Read with a network.");
    coming = known?.installing; // begun on another page
    const hold = setInterval(busy, STILL / 3);
    await afterTheEngine();
    clearInterval(hold);
    await afterTheKeys();
    if (navigator.connection?.saveData) offer("Keep the whole site on this device", () => keep().catch(broken));
    else await keep();
  }

  // On a first visit the calculators of this page come first; both at once would fetch the same files twice.
  async function afterTheEngine() {
    if (document.readyState !== "complete") await new Promise((go) => addEventListener("load", go, {once: true}));
    const settled = () => !["waiting", "starting"].includes(document.documentElement.dataset.engine);
    await new Promise((go) => {
      const look = () => settled() && go();
      document.addEventListener("underslab:engine", look);
      setTimeout(go, 60_000);
      setTimeout(look, 200);
    });
  }

  async function afterTheKeys() {
    for (let left = 0; (left = typed + STILL - performance.now()) > 0; ) await new Promise((go) => setTimeout(go, left));
  }

  // The worker that fetches is told of keys too, of Python that starts, and of a page that is called; it waits then.
  addEventListener("input", () => {
    typed = performance.now();
    busy();
  });
  addEventListener("pagehide", busy);

  function busy() {
    if (!coming || performance.now() - told < STILL / 3) return;
    told = performance.now();
    coming.postMessage({type: "busy"});
  }

  async function keep() {
    const root = window.__md_scope;
    const registration = await workers.register(new URL("sw.js", root), {scope: root.pathname, updateViaCache: "none"});
    const next = registration.installing ?? registration.waiting;
    if (registration.waiting && registration.active) newVersion(registration.waiting);
    else if (registration.active) askState();
    else say(next ? "Being kept on this device." : brokenOff);
    if (next) follow(registration, next);
    registration.addEventListener("updatefound", () => follow(registration, registration.installing));
  }

  function follow(registration, worker) {
    coming = worker;
    worker.addEventListener("statechange", () => {
      if (coming === worker) coming = null;
      if (worker.state === "installed" && registration.active) newVersion(worker);
      else if (worker.state === "activated") askState();
      else if (worker.state === "redundant" && !registration.active) say(brokenOff);
    });
  }

  function newVersion(worker) {
    say("A new version is here, whole.");
    offer("Use the new version now", () => {
      taken = true;
      worker.postMessage({type: "use-now"});
    });
  }

  // Only the worker knows whether every file is there; nothing is called ready before it has looked.
  function askState() {
    workers.getRegistration(window.__md_scope).then((known) => known?.active?.postMessage({type: "state"}));
  }

  function heard({type, done, total, whole, full}) {
    const megabytes = (bytes) => (bytes / 1e6).toFixed(1);
    if (type === "state" && button.hidden) say(whole ? ready : MISSING);
    if (type === "broken off") {
      brokenOff = full ? FULL : BROKEN_OFF;
      if (full && controlled && line.textContent !== MISSING) ready = `${READY} There is too little room here for the new version.`;
      if (line.textContent === READY) say(ready);
      if ([MISSING, BROKEN_OFF].includes(line.textContent)) say(brokenOff); // it may come after the news of the worker's end
    }
    if (type === "kept" && coming && !workers.controller) say(`Being kept on this device: ${megabytes(done)} of ${megabytes(total)} MB.`);
  }
}
