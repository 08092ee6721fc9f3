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

  let closed = [];
  window.addEventListener("beforeprint", () => {
    closed = [...document.querySelectorAll("details:not([open])")];
    for (const details of closed) details.open = true;
  });
  window.addEventListener("afterprint", () => {
    for (const details of closed) details.open = false;
    closed = [];
  });
})();
