// Entries that wait on this device: kept before they are sent, sent in order, once each, and shown until they are settled.
// The book counts an entry by its id, so that one whose answer was lost may be sent again.
//
// gudgeon.queue.put({ address, body, words, place, entry }) -> Promise of { entry }, once it is kept on the device
//   `body` is a form as text (a=b&c=d); `entry` is read from it where it is not given.
// gudgeon.queue.count() / waiting() / sent() / unread() / read(entry) / drop(entry) / again(entry) / send() / standing()
// Events on document: gudgeon:queue, gudgeon:recorded, gudgeon:refused.
"use strict";

window.gudgeon = window.gudgeon || {};

(() => {
  const PATIENCE_MS = 8000;
  const LEASE_MS = 15000;
  const AGAIN_MS = [1000, 2000, 4000];
  const FAULTS_MOST = 5;
  const SENT_MOST = 200;
  const KNEW_MOST = 200;
  const LONG_MS = 10000;
  const COUNTED_ONCE = "It was in the book already, and counts once.";

  const hex = (bytes) => [...bytes].map((one) => one.toString(16).padStart(2, "0")).join("");
  // A version 4 id (RFC 9562); `randomUUID` is missing where the page came over a plain network.
  gudgeon.newId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    bytes[6] = (bytes[6] & 0x0f) | 0x40;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    return hex(bytes);
  };

  // What somebody wrote may be pages long: in a line it is cut, and its end is marked.
  gudgeon.clipped = (text, most = 160) => (text.length > most ? `${text.slice(0, most - 1).trimEnd()}…` : text);

  const me = gudgeon.newId();
  const here = new Set();
  const tell = (name, detail) => document.dispatchEvent(new CustomEvent(`gudgeon:${name}`, { detail }));

  // The store on the device. `waiting` is in the order of putting; `sent` are the last ones that the book has.
  let opened = null;
  const database = () => {
    opened = opened || new Promise((resolve, reject) => {
      if (!window.indexedDB) { reject(new Error("This browser keeps nothing for a page.")); return; }
      const asked = indexedDB.open("gudgeon", 1);
      asked.onupgradeneeded = () => {
        asked.result.createObjectStore("waiting", { keyPath: "number", autoIncrement: true }).createIndex("entry", "entry", { unique: true });
        asked.result.createObjectStore("sent", { keyPath: "number", autoIncrement: true }).createIndex("entry", "entry", { unique: true });
        asked.result.createObjectStore("lease", { keyPath: "name" });
      };
      asked.onsuccess = () => {
        asked.result.onversionchange = () => { asked.result.close(); opened = null; };
        asked.result.onclose = () => { opened = null; };
        resolve(asked.result);
      };
      asked.onerror = () => reject(asked.error);
      asked.onblocked = () => reject(new Error("Another page of this browser holds what it keeps."));
    }).catch((error) => { opened = null; throw error; });
    return opened;
  };

  // One transaction: `work` asks of the stores, and what it leaves in `box.result` is handed on once it is on the device.
  const within = async (names, mode, work) => {
    const held = await database();
    return new Promise((resolve, reject) => {
      const deal = held.transaction(names, mode, { durability: "strict" });
      const box = { result: undefined };
      deal.oncomplete = () => resolve(box.result);
      deal.onerror = () => reject(deal.error);
      deal.onabort = () => reject(deal.error || new Error("It was not kept."));
      work(deal, box);
    });
  };

  const all = (name) => within([name], "readonly", (deal, box) => {
    const asked = deal.objectStore(name).getAll();
    asked.onsuccess = () => { box.result = asked.result; };
  });

  const change = (entry, alter) => within(["waiting"], "readwrite", (deal, box) => {
    const store = deal.objectStore("waiting");
    const asked = store.index("entry").get(entry);
    asked.onsuccess = () => {
      if (!asked.result) return;
      box.result = asked.result;
      const altered = alter({ ...asked.result });
      if (altered) store.put(altered); else store.delete(asked.result.number);
    };
  });

  // How it stands: how many wait, since when there was no answer, and why nothing goes on.
  const standing = { waiting: 0, refused: 0, unread: 0, away: false, since: null, unpaired: false, trouble: "", keeps: true };
  const channel = window.BroadcastChannel ? new BroadcastChannel("gudgeon") : null;
  const both = (name, detail) => {
    tell(name, detail);
    if (channel) channel.postMessage({ name, detail });
  };
  if (channel) {
    channel.onmessage = ({ data }) => {
      if (data.name === "count") recount(); else tell(data.name, data.detail);
    };
  }

  const say = () => tell("queue", { ...standing });
  const recount = async () => {
    try {
      const found = await all("waiting");
      standing.waiting = found.filter((one) => !one.refused).length;
      standing.refused = found.length - standing.waiting;
      standing.unread = (await all("sent")).filter((one) => one.unread).length;
    } catch {
      standing.keeps = false;
    }
    say();
  };
  const recounted = async () => {
    await recount();
    if (channel) channel.postMessage({ name: "count" });
  };

  const reached = () => {
    Object.assign(standing, { away: false, since: null, trouble: "" });
  };
  const lost = (trouble = "") => {
    standing.since = standing.since || Date.now();
    Object.assign(standing, { away: true, trouble });
  };

  const asked = async (address, options = {}) => {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), PATIENCE_MS);
    try {
      const answer = await fetch(address, { ...options, cache: "no-store", signal: stop.signal });
      const type = answer.headers.get("content-type") || "";
      const words = await answer.text();
      let told = null;
      if (type.startsWith("application/json")) { try { told = JSON.parse(words); } catch { told = null; } }
      return { status: answer.status, told };
    } finally {
      clearTimeout(timer);
    }
  };

  // The seal of this device as it is now: a page that was kept, or an entry from before a new pairing, carries an old one.
  let seal = "";
  const newSeal = async () => {
    const { status, told } = await asked("/standing");
    seal = (status === 200 && told && told.seal) || "";
    return seal;
  };

  const post = (one) => {
    const form = new URLSearchParams(one.body);
    if (seal) form.set("seal", seal);
    form.set("ago", String(Math.max(0, Math.floor((Date.now() - one.at) / 1000))));
    return asked(one.address, {
      method: "POST",
      headers: { Accept: "application/json", "Content-Type": "application/x-www-form-urlencoded;charset=UTF-8" },
      body: form.toString(),
    });
  };

  // What the book says of an entry that waited is kept until somebody has read it: its page may be long gone.
  const worthReading = (one, told) => (Date.now() - one.at < LONG_MS ? [] : (told.remarks || []).filter((words) => words !== COUNTED_ONCE));

  const settle = async (one, told) => {
    const unread = worthReading(one, told);
    await within(["waiting", "sent"], "readwrite", (deal) => {
      const key = deal.objectStore("waiting").index("entry").getKey(one.entry);
      key.onsuccess = () => { if (key.result !== undefined) deal.objectStore("waiting").delete(key.result); };
      const sent = deal.objectStore("sent");
      const before = sent.index("entry").getKey(one.entry);
      before.onsuccess = () => {
        if (before.result === undefined) {
          sent.add({
            entry: one.entry, place: one.place, words: one.words, at: one.at, chain: one.chain, basis: told.basis || "",
            settled: Date.now(), said: told.said || "", remarks: unread, unread: unread.length > 0,
          });
        }
      };
      const count = sent.count();
      count.onsuccess = () => {
        let over = count.result - SENT_MOST;
        if (over <= 0) return;
        sent.openCursor().onsuccess = ({ target }) => {
          if (!target.result || over <= 0) return;
          if (!target.result.value.unread) { target.result.delete(); over -= 1; }
          target.result.continue();
        };
      };
    });
    both("recorded", {
      entry: one.entry, place: one.place, words: one.words, said: told.said || "", remarks: told.remarks || [],
      basis: told.basis || "", then: told.then || "", told,
    });
  };

  // What the book refused for what it says is refused again: it has to be written anew.
  const setAside = async (one, said, told = null) => {
    const content = Boolean(told && told.recorded === false && !told.elsewhere);
    await change(one.entry, (kept) => ({ ...kept, refused: said, content }));
    both("refused", { entry: one.entry, place: one.place, words: one.words, said, told });
  };

  // Send the first one; whether the next may follow at once.
  const sendOne = async (one) => {
    let answer;
    try {
      answer = await post(one);
      if (answer.status === 422 && answer.told && answer.told.stale && await newSeal()) answer = await post(one);
    } catch {
      lost();
      return false;
    }
    const { status, told } = answer;
    const refused = told && told.recorded === false;
    standing.unpaired = status === 403;
    if (status === 200 && told && told.recorded === true) {
      reached();
      await settle(one, told);
      return true;
    }
    if (status === 200 && refused) { reached(); await setAside(one, told.said, told); return true; }
    if (status === 403) {
      reached();
      standing.trouble = (told && told.said) || "";
      return false;
    }
    if (status === 422 && told && told.stale) { reached(); standing.unpaired = true; return false; }
    if (status === 422 && refused) { reached(); await setAside(one, told.said, told); return true; }
    if (status === 413) { reached(); await setAside(one, "It is longer than an entry can be. Nothing was recorded."); return true; }
    if (status === 400 || status === 405 || status === 422) {
      reached();
      await setAside(one, "The book that is open now does not take such an entry. Nothing was recorded.");
      return true;
    }
    if (status === 500) {
      const faults = (one.faults || 0) + 1;
      const words = `Gudgeon itself failed on this entry ${FAULTS_MOST} times; look at “What was done?” before you send it again.`;
      await change(one.entry, (kept) => ({ ...kept, faults }));
      if (faults >= FAULTS_MOST) { await setAside({ ...one, faults }, words); return true; }
    }
    lost((told && told.said) || `What answered was not the book (${status}).`);
    return false;
  };

  // One page of the browser sends at a time.
  const leased = async (work) => {
    const now = () => Date.now();
    const take = () => within(["lease"], "readwrite", (deal, box) => {
      const store = deal.objectStore("lease");
      const held = store.get("sending");
      held.onsuccess = () => {
        const free = !held.result || held.result.holder === me || held.result.until < now() || held.result.until > now() + LEASE_MS;
        if (free) store.put({ name: "sending", holder: me, until: now() + LEASE_MS });
        box.result = free;
      };
    });
    if (!await take()) return false;
    try { await work(take); } finally { await release(); }
    return true;
  };
  const release = () => within(["lease"], "readwrite", (deal) => {
    const store = deal.objectStore("lease");
    const held = store.get("sending");
    held.onsuccess = () => { if (held.result && held.result.holder === me) store.delete("sending"); };
  });
  const exclusively = (work) => (navigator.locks
    ? navigator.locks.request("gudgeon-queue", { ifAvailable: true }, async (lock) => {
      if (lock) await work(async () => true);
      return Boolean(lock);
    })
    : leased(work));

  let sending = null;
  let more = false;
  let tries = 0;
  let timer = 0;
  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(send, AGAIN_MS[Math.min(tries, AGAIN_MS.length - 1)]);
    tries += 1;
  };

  const sendAll = async (still) => {
    for (;;) {
      more = false;
      const first = (await all("waiting")).find((one) => !one.refused);
      if (!first || !await still()) return true;
      const on = await sendOne(first);
      await recounted();
      if (!on) return false;
      tries = 0;
    }
  };

  const send = () => {
    more = true;
    sending = sending || (async () => {
      try {
        while (more) {
          let done = true;
          const mine = await exclusively(async (still) => { done = await sendAll(still); });
          if (!mine || !done) { later(); return; }
        }
      } catch {
        await recount();
        if (standing.keeps) later();
      } finally {
        sending = null;
      }
    })();
    return sending;
  };
  const soon = () => { tries = 0; if (standing.waiting) send(); };

  const put = async ({ address, body, words = "", place = "", entry = "" }) => {
    const form = new URLSearchParams(body);
    const waits = await all("waiting");
    let id = entry || form.get("entry") || gudgeon.newId();
    const before = waits.find((one) => one.entry === id);
    if (before && before.plain !== body) id = gudgeon.newId(); // a page that was kept offers one id twice
    if (!entry) form.set("entry", id);
    const known = [...await all("sent"), ...waits].map((one) => one.entry).filter((one) => one !== id);
    const knew = new Set([...(form.get("knew") || "").split(" "), ...known.slice(-KNEW_MOST)]);
    form.set("knew", [...knew].filter(Boolean).join(" "));
    here.add(id);
    const kept = { entry: id, address, body: form.toString(), plain: body, words, place, at: Date.now(), chain: form.get("chain") || "", refused: "" };
    await within(["waiting"], "readwrite", (deal) => {
      const store = deal.objectStore("waiting");
      const before = store.index("entry").getKey(id);
      before.onsuccess = () => { if (before.result === undefined) store.add(kept); };
    });
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => false);
    await recounted();
    send();
    return { entry: id };
  };

  const shown = ({ entry, words, place, at, refused, address, body, chain, content = false }) => (
    { entry, words, place, at, refused, address, body, chain, content });

  gudgeon.queue = {
    put,
    send: () => { tries = 0; return send(); },
    count: async () => (await all("waiting")).filter((one) => !one.refused).length,
    waiting: async () => (await all("waiting")).map(shown),
    sent: () => all("sent"),
    // What was refused goes only when the person has said so; or when its form is sent once more as a form.
    drop: async (entry) => { const gone = await change(entry, () => null); await recounted(); return Boolean(gone); },
    again: async (entry) => {
      await change(entry, (kept) => ({ ...kept, refused: "", content: false, faults: 0 }));
      await recounted();
      return send();
    },
    // What the book said of entries that had waited, and nobody has read yet.
    unread: async () => (await all("sent")).filter((one) => one.unread),
    read: async (entry) => {
      await within(["sent"], "readwrite", (deal) => {
        const store = deal.objectStore("sent");
        const asked = store.index("entry").get(entry);
        asked.onsuccess = () => { if (asked.result) store.put({ ...asked.result, unread: false }); };
      });
      await recounted();
    },
    isHere: (entry) => here.has(entry),
    standing: () => ({ ...standing }),
    // What another script of the page found out about the book: whether it answered, and what seal this device has now.
    heard: ({ answered, sealed = "" }) => {
      const was = { ...standing };
      if (!answered) lost(); else if (!standing.trouble) reached();
      if (answered) {
        if (sealed) seal = sealed;
        standing.unpaired = !sealed && (standing.waiting > 0 || document.body.dataset.paired === "yes");
      }
      if (answered && (was.away || was.unpaired !== standing.unpaired)) soon();
      if (was.away !== standing.away || was.unpaired !== standing.unpaired) say();
    },
  };

  window.addEventListener("online", soon);
  window.addEventListener("pageshow", () => { recount().then(soon); });
  window.addEventListener("pagehide", () => { if (!navigator.locks && standing.keeps) release().catch(() => false); });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) recount().then(soon); });
})();
