// Starts the Go program of the background worker. A failure reaches the page as the worker's error event.
"use strict";

importScripts("asset:wasm_exec.js");

(async () => {
  const go = new Go();
  const answer = await fetch("asset:worker.wasm");
  if (!answer.ok) throw new Error("asset:worker.wasm" + ": answer " + answer.status);
  const { instance } = await WebAssembly.instantiateStreaming(answer, go.importObject);
  await go.run(instance);
  throw new Error("the background worker has stopped");
})().catch((trouble) => setTimeout(() => { throw trouble; }));
