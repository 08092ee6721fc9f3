// Starts the app: loads the Go program and runs it. When that fails, the page says so in plain words.
"use strict";

(() => {
  const program = "asset:browser.wasm";

  // The renderer passes its helper script to eval, which this page's policy forbids. The script is already here, as
  // vugu-helper.js, and does nothing when it runs a second time.
  window.eval = () => undefined;

  // fail puts a message above whatever is on the page. Each part is a sentence or two.
  function fail(what, todo, detail, save) {
    const box = document.createElement("section");
    box.className = "boot-error";
    box.setAttribute("role", "alert");
    const add = (tag, text) => {
      const part = document.createElement(tag);
      part.textContent = text;
      box.append(part);
    };
    add("h1", what);
    add("p", todo);
    if (save) {
      const button = document.createElement("button");
      button.id = "save-all";
      button.type = "button";
      button.textContent = "Save everything as case files";
      button.addEventListener("click", save);
      box.append(button);
    }
    if (detail) add("pre", detail);
    document.body.prepend(box);
    document.documentElement.dataset.failed = "1";
  }

  // The program calls this when it can draw no more; it still runs, and save has it save what is open.
  window.ratchetmarkFailed = (detail, save) =>
    fail("The app can draw no more", "Save what is open, then load the page again.", detail, save);

  // missing names what this browser lacks, or is empty.
  function missing() {
    if (typeof WebAssembly !== "object") return "WebAssembly";
    if (!WebAssembly.instantiateStreaming) return "WebAssembly.instantiateStreaming";
    if (!window.Go) return "wasm_exec.js, a file of the app";
    if (!window.vuguRender) return "vugu-helper.js, a file of the app";
    return "";
  }

  async function load(go) {
    const answer = await fetch(program);
    if (!answer.ok) throw new Error(program + ": answer " + answer.status);
    const { instance } = await WebAssembly.instantiateStreaming(answer, go.importObject);
    return instance;
  }

  async function start() {
    const lack = missing();
    if (lack) {
      fail("This browser cannot run the app", "Update the browser or open the page in another one.", "missing: " + lack);
      return;
    }
    const go = new Go();
    let instance;
    try {
      instance = await load(go);
    } catch (trouble) {
      fail("The app could not be loaded", "Check the connection, then load the page again.", String(trouble));
      return;
    }
    // run returns when the program ends, which it does only when something is wrong with it.
    let detail = "";
    try {
      await go.run(instance);
    } catch (trouble) {
      detail = String(trouble);
    }
    fail("The app has stopped", "What is on the page can still be read and printed. Load the page again to go on.", detail);
  }

  start();
})();
