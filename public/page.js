// What the page does beside the Go program: bringing things into view, and laying everything open for print.
"use strict";

(() => {
  // ratchetmarkShow brings an element into view and gives it the focus, once the page is drawn.
  window.ratchetmarkShow = (id) => {
    setTimeout(() => {
      const element = document.getElementById(id);
      if (!element) return;
      element.scrollIntoView({ block: "start" });
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
})();
