// Starts the phone app, keeps it startable without signal, and says so when it
// has stopped. The app sees one object, window.lugmarkShell, and the event
// "lugmark:shell" on window whenever a field of it changed:
//
//   version            of the files this page was started from
//   offline            "no" | "checking" | "ready" (every file was read back) | "never" (this browser takes no worker here)
//   files, expected    how many files were read back whole, of how many
//   waiting            a newer version is here, whole, and waits
//   installable        the browser offers to install; install() asks the person
//   installed          started from the home screen
//   check()            reads every file back now; update() looks for a newer version
//   activate()         starts the waiting version and reloads this page, no other tab
//
// go-app itself needs no global of ours: what it does not find it takes as "no".
"use strict";
(() => {
  const page = document.documentElement;
  const splash = document.getElementById("splash");
  let registration = null;
  let installPrompt = null;
  let lookedAt = Date.now();
  let registering = "not yet"; // "now", "done"

  const shell = {
    version: page.dataset.version,
    offline: "serviceWorker" in navigator ? "no" : "never",
    files: 0,
    expected: 0,
    waiting: false,
    installable: false,
    installed: navigator.standalone === true || window.matchMedia("(display-mode: standalone)").matches,
    check,
    update,
    activate,
    install,
  };
  window.lugmarkShell = shell;

  function changed(fields) {
    Object.assign(shell, fields);
    window.dispatchEvent(new Event("lugmark:shell"));
  }

  // ---- the app ----

  function show(state) {
    if (splash.dataset.state === "old" || splash.dataset.state === "failed") return; // these are the end
    splash.dataset.state = state;
    for (const part of splash.querySelectorAll("[data-when]")) part.hidden = part.dataset.when !== state;
  }

  for (const button of document.querySelectorAll('[data-does="reload"]')) {
    button.addEventListener("click", () => location.reload());
  }

  // A plain fetch lets the browser keep its compiled code for the next start,
  // which a counted one does not. So only the first load, the slow one, counts.
  async function fetchApp() {
    const first = !(navigator.serviceWorker && navigator.serviceWorker.controller);
    const answer = await fetch("/app.wasm");
    if (!answer.ok) throw new Error("app.wasm: HTTP " + answer.status);
    if (!first || !answer.body) return answer;
    show("first");
    const bar = document.getElementById("splash-progress");
    const total = Number(page.dataset.bytes);
    let got = 0;
    const counted = answer.body.pipeThrough(new TransformStream({
      transform(piece, out) {
        got += piece.byteLength;
        bar.value = Math.min(100, Math.round((got * 100) / total));
        out.enqueue(piece);
      },
    }));
    return new Response(counted, { headers: { "Content-Type": "application/wasm" } });
  }

  async function startApp() {
    if (typeof WebAssembly !== "object" || !WebAssembly.instantiateStreaming || typeof TransformStream !== "function") {
      show("old");
      return;
    }
    let started;
    const go = new Go();
    try {
      started = await WebAssembly.instantiateStreaming(fetchApp(), go.importObject);
    } catch (err) {
      console.error("lugmark: could not start:", err);
      // A browser that lacks a feature the app uses fails to compile or to link it.
      show(err instanceof WebAssembly.CompileError || err instanceof WebAssembly.LinkError ? "old" : "failed");
      return;
    }
    // run ends only when the program has ended, and this program never should:
    // without this panel a fault would leave a painted page that answers nothing.
    const stopped = () => { document.getElementById("stopped").hidden = false; };
    go.run(started.instance).then(stopped, stopped);
    // A trap in a callback, memory for one, ends it without run ending.
    window.addEventListener("error", (event) => {
      if (event.error instanceof WebAssembly.RuntimeError) stopped();
    });
  }

  // ---- without signal ----

  function watchFor(worker) {
    worker.addEventListener("statechange", () => {
      if (worker.state === "activated" || worker.state === "installed") settle();
    });
  }

  function settle() {
    const waiting = !!(registration.waiting && registration.active);
    if (waiting !== shell.waiting) changed({ waiting });
    if (registration.active && shell.offline === "no") check();
  }

  async function keepOffline() {
    if (!("serviceWorker" in navigator) || registering === "now") return;
    registering = "now";
    try {
      registration = await navigator.serviceWorker.register("/worker.js", { updateViaCache: "none" });
    } catch (err) {
      console.warn("lugmark: works only with signal here:", err);
      changed({ offline: "never" });
      return;
    } finally {
      registering = "done";
    }
    if (shell.offline === "never") changed({ offline: "no" });
    registration.addEventListener("updatefound", () => watchFor(registration.installing));
    if (registration.installing) watchFor(registration.installing);
    if (registration.active && registration.active.state === "activating") watchFor(registration.active);
    settle();
  }

  // again tries once more what did not succeed: a file that could not be fetched
  // while the signal was gone, a worker that could not be registered.
  function again() {
    if (registration) settle();
    else if (registering === "done") keepOffline();
  }
  window.addEventListener("online", again);

  // check asks the worker to read every file back. Only its count counts:
  // a cache that was half emptied by the browser still has its name.
  async function check() {
    const worker = registration && registration.active;
    if (!worker) return;
    changed({ offline: "checking" });
    const answer = await new Promise((resolve) => {
      const line = new MessageChannel();
      line.port1.onmessage = (event) => resolve(event.data);
      worker.postMessage({ type: "lugmark:readback" }, [line.port2]);
      setTimeout(() => resolve({ count: 0, expected: 0 }), 60000);
    });
    const whole = answer.expected > 0 && answer.count === answer.expected;
    changed({ files: answer.count, expected: answer.expected, offline: whole ? "ready" : "no" });
  }

  async function update() {
    if (!registration) return;
    lookedAt = Date.now();
    try {
      await registration.update();
    } catch {
      // no signal, or a cut download: the version here goes on, the next look tries again
    }
    settle();
  }

  function activate() {
    if (!registration || !registration.waiting) return;
    // Only this tab reloads: another may be in the middle of a job.
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    registration.waiting.postMessage({ type: "lugmark:activate" });
  }

  document.addEventListener("visibilitychange", () => {
    const hour = 60 * 60 * 1000;
    if (document.visibilityState !== "visible") return;
    if (registration && Date.now() - lookedAt > hour) update();
    else again();
  });

  // ---- on the home screen ----

  window.addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    installPrompt = event;
    changed({ installable: true });
  });
  window.addEventListener("appinstalled", () => {
    installPrompt = null;
    changed({ installable: false, installed: true });
  });
  async function install() {
    if (!installPrompt) return;
    const prompt = installPrompt;
    installPrompt = null;
    changed({ installable: false });
    await prompt.prompt();
  }

  // The worker is registered after the app has been fetched, so that the phone
  // does not fetch it twice over a slow line: the second time it is in the HTTP cache.
  startApp().finally(keepOffline);
})();
