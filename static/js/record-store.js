// What this phone keeps, in its own database: sets, breaks, unfinished entries.
// A break is in there before the page says so. A break carries the revision it
// has here and the one the server is known to have (acked); what is above that
// has still to be sent. Everything belongs to a person and is only shown to, and
// sent for, that person.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const all = ["kept", "sets", "breaks"];
  const told = "BroadcastChannel" in window ? new BroadcastChannel("breakwright") : null;
  const listeners = [];
  let opening;

  const open = () => {
    opening ??= idb.openDB("breakwright", 1, {
      upgrade(db) {
        db.createObjectStore("kept");
        db.createObjectStore("sets", { keyPath: "id" }).createIndex("person", "person");
        db.createObjectStore("breaks", { keyPath: "id" }).createIndex("set", "set");
      },
      blocking: (_now, _next, event) => { event.target.close(); opening = undefined; },
      terminated: () => { opening = undefined; },
    }).catch((error) => { opening = undefined; throw error; });
    return opening;
  };
  // write does work in one transaction, and returns when it is on the disk.
  const write = async (work) => {
    const db = await open();
    const tx = db.transaction(all, "readwrite", { durability: "strict" });
    tx.done.catch(() => {}); // the caller hears of it below
    try {
      const result = await work(tx.objectStore("sets"), tx.objectStore("breaks"), tx.objectStore("kept"));
      await tx.done;
      told?.postMessage("changed");
      return result;
    } catch (error) {
      try { tx.abort(); } catch { /* it has ended itself */ }
      throw error;
    }
  };
  bw.write = write;
  bw.onChange = (listener) => listeners.push(listener);
  told?.addEventListener("message", () => { for (const listener of listeners) listener(); });

  // An id of version 7: it sorts by the time it was made.
  bw.newID = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    for (let i = 5, ms = Date.now(); i >= 0; i--, ms = Math.floor(ms / 256)) bytes[i] = ms % 256;
    bytes[6] = (bytes[6] & 0x0f) | 0x70;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const hex = Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
    return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
  };

  bw.keep = (key, value) => write((_s, _b, kept) => (value === undefined ? kept.delete(key) : kept.put(value, key)));
  bw.kept = async (key) => (await open()).get("kept", key);
  bw.person = () => bw.kept("person");
  bw.held = async () => bw.kept(`held ${await bw.person()}`);

  bw.mySets = async () => {
    const person = await bw.person();
    return person ? (await open()).getAllFromIndex("sets", "person", person) : [];
  };
  // getSet gives a set of the person's own with its breaks, or undefined.
  bw.getSet = async (id) => {
    const db = await open();
    const set = await db.get("sets", id);
    if (!set || set.person !== (await bw.person())) return undefined;
    return { ...set, breaks: await db.getAllFromIndex("breaks", "set", id) };
  };
  bw.live = (breaks) => breaks.filter((b) => b.deleted === undefined).sort((a, b) => a.number - b.number);
  bw.isUnsent = (b) => b.revision > b.acked;
  bw.others = async () => {
    const person = await bw.person();
    return (await (await open()).getAll("breaks")).filter((b) => b.person !== person && bw.isUnsent(b)).length;
  };

  bw.startSet = (set) => write((sets) => sets.put({ started: new Date().toISOString(), startSent: false, closed: null, closeSent: false, steps: 0, ...set }));

  const freeNumber = (breaks, planned) => {
    const taken = new Set(bw.live(breaks).map((b) => b.number));
    for (let n = 1; n <= planned; n++) if (!taken.has(n)) return n;
    return 0;
  };
  bw.nextNumber = (set) => freeNumber(set.breaks, set.planned);

  const step = async (sets, id) => {
    const set = await sets.get(id);
    set.steps += 1;
    await sets.put(set);
    return set;
  };
  // saveBreak keeps a new break under the first free number, or, when edit
  // says so, a break that was there. make writes the content under a number.
  bw.saveBreak = (setID, id, edit, make) => write(async (sets, breaks, kept) => {
    const set = await step(sets, setID);
    const there = await breaks.get(id);
    const number = edit ? there.number : freeNumber(await breaks.index("set").getAll(setID), set.planned);
    if (!number) throw new Error("full");
    const at = there ? JSON.parse(there.content).at : new Date().toISOString();
    const b = {
      id, set: setID, person: set.person, number, revision: (there?.revision || 0) + 1, acked: there?.acked || 0,
      content: make(number, at), order: set.steps, was: edit ? { content: there.content } : undefined,
    };
    await breaks.put(b);
    await kept.delete(`draft ${setID}`);
    return b;
  });
  bw.deleteBreak = (setID, id, reason) => write(async (sets, breaks) => {
    const set = await step(sets, setID);
    const b = await breaks.get(id);
    await breaks.put({ ...b, revision: b.revision + 1, deleted: reason, order: set.steps, was: { content: b.content }, refused: undefined });
  });
  // undo takes back the last thing done to a set's breaks, and gives the break
  // as it was: a new one comes back as an entry, the others as they were.
  bw.undo = (setID) => write(async (_sets, breaks) => {
    const last = (await breaks.index("set").getAll(setID)).filter((b) => b.order).sort((a, b) => b.order - a.order)[0];
    if (!last) return undefined;
    const back = { ...last, revision: last.revision + 1, order: 0, was: undefined, refused: undefined };
    if (last.was) Object.assign(back, { content: last.was.content, deleted: undefined });
    else back.deleted = "undone at once";
    await breaks.put(back);
    return { ...back, isNew: !last.was };
  });
  bw.keepDraft = (setID, draft) => bw.keep(`draft ${setID}`, draft);
  bw.draft = (setID) => bw.kept(`draft ${setID}`);

  const change = (id, with_) => write(async (sets) => {
    const set = await sets.get(id);
    await sets.put({ ...set, ...with_ });
  });
  bw.closeSet = (id) => change(id, { closed: new Date().toISOString() });
  bw.reopenSet = (id) => change(id, { closed: null });

  // settle ends a disagreement the way the student chose: "mine" replaces what
  // is there, "another" was another break and gets the next free number,
  // "theirs" lets mine go.
  bw.settle = (id, choice) => write(async (sets, breaks) => {
    const b = await breaks.get(id);
    const { there } = b.refused;
    if (choice === "mine") {
      await breaks.put({ ...b, revision: Math.max(b.revision, there?.revision || 0) + 1, acked: there?.revision || b.acked, refused: undefined });
    } else if (choice === "another") {
      const set = await sets.get(b.set);
      const here = (await breaks.index("set").getAll(b.set)).filter((o) => o.id !== id);
      const number = freeNumber([...here, { number: there.content.number }], set.planned);
      if (!number) throw new Error("full");
      await breaks.put({ ...b, number, content: JSON.stringify({ ...JSON.parse(b.content), number }), refused: undefined });
    } else if (there && there.id === id) {
      await breaks.put({ id, set: b.set, person: b.person, number: there.content.number, revision: there.revision, acked: there.revision, content: JSON.stringify(there.content), coach: there.coach, order: 0 });
    } else {
      await breaks.delete(id);
    }
  });
})();
