// What the page does beside the Go program: bringing things into view, laying everything open for print, and the keys and
// long presses of the form.
"use strict";

(() => {
  // ratchetmarkShow brings an element into view and gives it the focus, once the page is drawn.
  window.ratchetmarkShow = (id) => {
    setTimeout(() => {
      const element = document.getElementById(id);
      if (!element) return;
      element.scrollIntoView({ block: element.matches("input, select, button") ? "nearest" : "start" });
      element.focus({ preventScroll: true });
    }, 0);
  };

  // ratchetmarkDraw puts a drawing or a table into an element: at once where it is shown, else when it comes to be shown, as
  // the window changes, the part that encloses it is opened or the page is printed.
  const wide = matchMedia("(min-width: 700px)");
  const waiting = new Map();
  const needless = (element) =>
    element.classList.contains(wide.matches ? "narrow" : "wide") || element.closest("details:not([open])") !== null;
  window.ratchetmarkDraw = (element, svg) => {
    if (needless(element)) {
      waiting.set(element, svg);
      return;
    }
    waiting.delete(element);
    element.innerHTML = svg;
  };
  const drawWaiting = (all) => {
    for (const [element, svg] of waiting) {
      if (!element.isConnected) {
        waiting.delete(element);
      } else if (all || !needless(element)) {
        element.innerHTML = svg;
        waiting.delete(element);
      }
    }
  };
  wide.addEventListener("change", () => drawWaiting(false));
  document.addEventListener("toggle", () => drawWaiting(false), true);

  let closed = [];
  window.addEventListener("beforeprint", () => {
    drawWaiting(true);
    closed = [...document.querySelectorAll("details:not([open])")];
    for (const details of closed) details.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const details of closed) details.open = false;
    closed = [];
  });

  // Fields, of the form and of the sheet. Undo and redo are the app's own, never the browser's, which knows nothing of bands
  // and steppers.
  const press = (id) => document.getElementById(id)?.click();
  const inForm = (event) =>
    event.target === document.body ? document.querySelector("#typing, #sheet") : event.target.closest?.("#typing, #sheet");

  // step presses a stepper, once or ten times over.
  const step = (button, tenfold) =>
    button.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true, shiftKey: tenfold }));

  // next moves from a field to the one after it: in the form, after the last one, to what finishes it; on the sheet within the
  // part.
  const next = (field) => {
    const form = field.closest("#typing") ?? field.closest(".part, .fields");
    const stops = [...form?.querySelectorAll("input, select, #finish") ?? []].filter((e) => e.checkVisibility());
    const stop = stops[stops.indexOf(field) + 1];
    stop?.focus();
    if (stop?.matches("input[type=text]")) stop.select();
  };

  let entered = false;
  const keys = { z: "undo", Z: "redo", y: "redo" };
  document.addEventListener("keydown", (event) => {
    const form = inForm(event);
    entered = false;
    if (!form || event.altKey || event.isComposing) return;
    if (event.ctrlKey || event.metaKey) {
      const id = keys[event.shiftKey ? event.key.toUpperCase() : event.key.toLowerCase()];
      if (!id) return;
      event.preventDefault();
      press(id);
      return;
    }
    const field = event.target;
    if (event.key === "Enter" && field.matches("input, select")) {
      event.preventDefault();
      entered = true;
      next(field);
    }
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    const button = field.matches("input") && field.parentElement.querySelector(event.key === "ArrowUp" ? ".more" : ".less");
    if (!button) return;
    event.preventDefault();
    step(button, event.shiftKey);
  });
  document.addEventListener("keypress", (event) => { // the Enter that brought the keyboard here presses nothing here
    if (entered) event.preventDefault();
  });
  document.addEventListener("beforeinput", (event) => {
    const id = { historyUndo: "undo", historyRedo: "redo" }[event.inputType];
    if (!id || !inForm(event)) return;
    event.preventDefault();
    press(id);
  });

  // A stepper that is held down repeats, after a while in tenfold steps. It leaves the keyboard where it is, so that no
  // screen keyboard comes and goes.
  const stepper = (event) => event.target.closest?.(".step");
  let held = 0, repeated = false;
  const release = () => clearTimeout(held);
  document.addEventListener("pointerdown", (event) => {
    const button = stepper(event);
    release();
    repeated = false;
    if (!button || event.button !== 0) return;
    const begin = performance.now();
    const again = () => {
      if (!button.isConnected) return;
      repeated = true;
      step(button, performance.now() - begin > 3000);
      held = setTimeout(again, 100);
    };
    held = setTimeout(again, 500);
  });
  for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, release);
  window.addEventListener("blur", release);
  document.addEventListener("click", (event) => {
    if (repeated && event.isTrusted && stepper(event)) event.stopPropagation(); // the end of a long press is no press
    if (event.isTrusted) repeated = false;
  }, true);
  for (const kept of ["mousedown", "contextmenu"]) {
    document.addEventListener(kept, (event) => { if (stepper(event)) event.preventDefault(); });
  }
})();
