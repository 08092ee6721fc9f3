// What the app keeps on the device: texts on shelves, in IndexedDB. An entry has a head, for lists, and a body, each in a
// store of its own. Each function but the last three returns a promise; a refusal is a DOMException, of a name of ours where
// the browser has none.
"use strict";

(() => {
  const shelves = ["cases", "guides"];
  const bodies = (shelf) => shelf + ".body";
  const refusal = (name, text) => new DOMException(text, name);

  let db = null; // open, as far as is known
  let opening;
  let tell = () => {};

  // open opens the database, long before the first entry is put: a put that had to wait for it could be lost.
  function open() {
    opening = new Promise((done, failed) => {
      if (!window.indexedDB) throw refusal("Missing", "no IndexedDB");
      const request = indexedDB.open("ratchetmark", 1);
      request.onupgradeneeded = () => {
        for (const shelf of shelves) for (const name of [shelf, bodies(shelf)])
          if (!request.result.objectStoreNames.contains(name)) request.result.createObjectStore(name);
      };
      request.onblocked = () => failed(refusal("Blocked", "the database is open in an older version"));
      request.onerror = () => failed(request.error);
      request.onsuccess = () => done(hold(request.result)); // after onblocked too, once the other tab is closed
    });
    opening.catch(() => {}); // whoever uses it is told
  }

  function hold(opened) {
    db = opened;
    db.onversionchange = () => { // a newer version of the app must not wait for this page
      drop(Promise.reject(refusal("Superseded", "the database was taken over by a newer version")));
      opening.catch(tell);
    };
    db.onclose = () => drop() || open(); // the browser closed it, as when its data was cleared
    return db;
  }

  function drop(instead) {
    db?.close();
    db = null;
    opening = instead;
  }

  // use works with the database: at once when it is open.
  const use = async (work) => work(db ?? await opening);

  // write runs a transaction up to its commit before it returns, so that the end of the page right after loses nothing.
  // Durability is relaxed: done when the system has it, not when the disk has. What is kept must outlive the end of the tab
  // and of the browser, which it does; for a loss of power, strict would wait for the disk at every key that is pressed, and
  // those waiting would be lost with the tab.
  const write = (shelf, work) => use((open) => new Promise((done, failed) => {
    const transaction = open.transaction([shelf, bodies(shelf)], "readwrite", { durability: "relaxed" });
    transaction.oncomplete = () => { others?.postMessage(shelf); done(); };
    transaction.onabort = () => failed(transaction.error ?? refusal("AbortError", "the database gave up"));
    try {
      work(transaction.objectStore(shelf), transaction.objectStore(bodies(shelf)));
      transaction.commit();
    } catch (trouble) {
      failed(trouble);
      transaction.abort();
    }
  }));

  // read answers with what the requests that work makes come to.
  const read = (store, work) => use((open) => new Promise((done, failed) => {
    const transaction = open.transaction(store, "readonly"), requests = work(transaction.objectStore(store));
    transaction.oncomplete = () => done(requests.map((request) => request.result));
    transaction.onabort = () => failed(transaction.error ?? refusal("AbortError", "the database gave up"));
  }));

  // Other pages of the app say what they wrote. A page that is out of view looks when it comes back.
  const others = window.BroadcastChannel ? new BroadcastChannel("ratchetmark") : null;
  let soon;
  const look = () => {
    clearTimeout(soon); // while another page is typed into, once is enough
    soon = setTimeout(() => { if (!document.hidden) tell(null); }, 100);
  };
  others?.addEventListener("message", look);
  document.addEventListener("visibilitychange", look);

  window.ratchetmarkStore = {
    put: (shelf, key, head, body) => write(shelf, (heads, rest) => { rest.put(body, key); heads.put(head, key); }),
    delete: (shelf, key) => write(shelf, (heads, rest) => { rest.delete(key); heads.delete(key); }),
    get: async (shelf, key) => {
      const [body] = await read(bodies(shelf), (store) => [store.get(key)]);
      if (body === undefined) throw refusal("NotKept", "it is not on this device any more");
      return body;
    },
    list: async (shelf) => {
      const [keys, heads] = await read(shelf, (store) => [store.getAllKeys(), store.getAll()]);
      return JSON.stringify(keys.map((key, i) => ({ Key: key, Head: heads[i] })));
    },
    watch: (callback) => { tell = callback; },
    // What earlier versions kept; not a promise. Storage that is turned off holds nothing.
    left: (key) => { try { return localStorage.getItem(key) ?? ""; } catch { return ""; } },
    dropLeft: (key) => { try { localStorage.removeItem(key); } catch {} },
  };
  open();
})();
