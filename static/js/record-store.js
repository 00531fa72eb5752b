// What this phone keeps, in its own database: sets, breaks, unfinished entries.
// A break is in there before the page says so. A break carries the revision it
// has here and the one the server is known to have (acked); what is above that
// has still to be sent. Everything belongs to a person and is only shown to, and
// sent for, that person.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const all = ["kept", "sets", "breaks"];
  const channel = "BroadcastChannel" in window ? new BroadcastChannel("breakwright") : null;
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
    tx.done.catch(() => {}); // the caller sees it below
    try {
      const result = await work(tx.objectStore("sets"), tx.objectStore("breaks"), tx.objectStore("kept"));
      await tx.done;
      channel?.postMessage("changed");
      return result;
    } catch (error) {
      try { tx.abort(); } catch { /* it has ended itself */ }
      throw error;
    }
  };
  bw.write = write;
  bw.onChange = (listener) => listeners.push(listener);
  channel?.addEventListener("message", () => { for (const listener of listeners) listener(); });

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
  // forget takes all of the person off the phone, pages and sets, but sets of which
  // something waits to be sent or to be finished. Those go only with who was erased,
  // whose id is given: on a shared phone it need not be the person's. "" is theirs.
  /** @param {string} [erased] */
  bw.forget = async (erased) => {
    navigator.serviceWorker?.controller?.postMessage({ forget: true }); // it may be just keeping some
    for (const name of (await self.caches?.keys()) || []) if (name.startsWith("breakwright-pages-")) await caches.delete(name);
    await forgetSets(erased);
  };
  const forgetSets = (erased) => write(async (sets, breaks, kept) => {
    const here = await kept.get("person"), person = erased || here;
    if (person === here) await kept.delete("person");
    if (!person) return;
    await kept.delete(`held ${person}`);
    for (const set of await sets.index("person").getAll(person)) {
      const its = await breaks.index("set").getAll(set.id);
      const waits = !set.startSent || (set.closed && !set.closeSent) || its.some((b) => bw.isUnsent(b) || b.refused);
      const unfinished = waits || (await kept.get(`draft ${set.id}`)) || (await kept.get(`note ${set.id}`));
      if (unfinished && erased === undefined) continue;
      for (const what of ["draft", "note"]) await kept.delete(`${what} ${set.id}`);
      for (const b of its) await breaks.delete(b.id);
      await sets.delete(set.id);
    }
  });
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

  /** @param {{number: number, deleted?: string}[]} breaks @param {number} planned */
  const freeNumber = (breaks, planned) => {
    const taken = new Set(bw.live(breaks).map((b) => b.number));
    for (let n = 1; n <= planned; n++) if (!taken.has(n)) return n;
    return 0;
  };
  bw.nextNumber = (set) => freeNumber(set.breaks, set.planned);

  /** @param {Sets} sets @param {string} id */
  const step = async (sets, id) => {
    const set = /** @type {KeptSet} */ (await sets.get(id));
    set.steps += 1;
    await sets.put(set);
    return set;
  };
  // sameTaps reports whether two contents are one break: its number and its time
  // are the store's.
  bw.sameTaps = (a, b) => {
    const bare = (content) => JSON.stringify({ ...JSON.parse(content), number: 0, at: "" });
    return bare(a) === bare(b);
  };
  // saveBreak keeps a new break under the first free number, or, when edit says
  // so, a break that was there, as it was when its revision was base. make writes
  // the content under a number. A new break whose id another tab has saved
  // meanwhile is the same break, when the taps are, else one more, under an id of
  // its own. A break that was changed meanwhile is not overwritten unseen.
  /** @param {{setID: string, id: string, edit: boolean, base?: number}} draft */
  bw.saveBreak = ({ setID, id, edit, base }, make) => write(async (sets, breaks, kept) => {
    const there = await breaks.get(id);
    if (edit && there.revision !== base) throw Object.assign(new Error("changed"), { there });
    const taken = !edit && there && there.deleted === undefined;
    if (taken && bw.sameTaps(there.content, make(there.number, ""))) {
      await kept.delete(`draft ${setID}`);
      return there;
    }
    const set = await step(sets, setID);
    const before = taken ? undefined : there;
    const number = edit ? there.number : freeNumber(await breaks.index("set").getAll(setID), set.planned);
    if (!number) throw new Error("full");
    const at = before ? JSON.parse(before.content).at : new Date().toISOString();
    const b = {
      id: taken ? bw.newID() : id, set: setID, person: set.person, number, revision: (before?.revision || 0) + 1, acked: before?.acked || 0,
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

  /** @param {string} id @param {Partial<KeptSet>} with_ */
  const change = (id, with_) => write(async (sets) => {
    const set = await sets.get(id);
    await sets.put({ ...set, ...with_ });
  });
  bw.closeSet = (id) => change(id, { closed: new Date().toISOString() });
  // reopenSet opens a set again: one that the server has closed, by its leave.
  bw.reopenSet = (id) => write(async (sets, breaks) => {
    const set = await sets.get(id);
    await sets.put({ ...set, closed: null, closeSent: false, reopening: set.closeSent || set.reopening, closeRefused: undefined, reopenRefused: undefined });
    for (const b of await breaks.index("set").getAll(id)) if (b.refused?.because === "closed") await breaks.put({ ...b, refused: undefined });
  });
  // discardSet puts an empty set away: at once when nobody else knows of it.
  bw.discardSet = (id) => write(async (sets, breaks) => {
    const set = await sets.get(id);
    if (set.startSent) return sets.put({ ...set, discarding: true });
    for (const b of await breaks.index("set").getAllKeys(id)) await breaks.delete(b);
    return sets.delete(id);
  });
  // moveSet says that a set is one of another table or drill. Places that the
  // server does not have yet are carried as it carries the others, and their
  // revision goes past the one that it makes.
  bw.moveSet = (id, to) => write(async (sets, breaks) => {
    const set = await sets.get(id), scale = to.plan.length / set.plan.length;
    const carry = (at) => ("x" in at ? { ...at, ...bw.onCloth({ x: at.x * scale, y: at.y * scale }, to.plan) } : at);
    for (const b of await breaks.index("set").getAll(id)) {
      if (scale === 1 || !bw.isUnsent(b)) continue;
      const content = JSON.parse(b.content);
      content.cue = carry(content.cue);
      if (content.rest) content.rest = content.rest.map(carry);
      await breaks.put({ ...b, revision: b.revision + 1, content: JSON.stringify(content) });
    }
    await sets.put({ ...set, ...to, moving: set.startSent || undefined, startRefused: undefined });
  });

  // isStuck reports whether a break found no place on the server, and never will
  // where it is: its set was refused, is closed or is full. What is known there
  // in an older revision is a clash, which shows both.
  bw.isStuck = (b, set) => b.deleted === undefined && !b.acked && (Boolean(set.startRefused) || ["closed", "full", "gone"].includes(b.refused?.because ?? ""));
  bw.stuck = (set) => bw.live(set.breaks).filter((b) => bw.isStuck(b, set));
  // stuckWhy says in a sentence what stands in the way.
  bw.stuckWhy = (set) => {
    const all = bw.stuck(set);
    return `${bw.breaksAre(all.length)} only on this phone: ${set.startRefused || all[0]?.refused?.why || "not sent yet"}.`;
  };
  // putElsewhere begins a set anew for breaks that are stuck, in their order, and
  // gives its id. They keep their own ids: a late copy of one in the old set is
  // the same break, and is kept once. set is what bw.startSet takes.
  bw.putElsewhere = (id, set) => write(async (sets, breaks) => {
    const old = await sets.get(id), all = await breaks.index("set").getAll(id);
    const moved = bw.stuck({ ...old, breaks: all });
    const next = { startSent: false, closed: null, closeSent: false, steps: 0, started: old.started || new Date().toISOString(), ...set, planned: Math.max(set.planned, moved.length) };
    await sets.put(next);
    for (const [i, b] of moved.entries()) {
      const number = i + 1, content = JSON.stringify({ ...JSON.parse(b.content), number });
      await breaks.put({ id: b.id, set: next.id, person: b.person, number, revision: b.revision, acked: 0, content, order: 0 });
    }
    await endWhenEmpty(sets, breaks, old);
    return next.id;
  });
  // endWhenEmpty forgets a set that never came anywhere and holds nothing more.
  /** @param {Sets} sets @param {Breaks} breaks @param {KeptSet} set */
  const endWhenEmpty = async (sets, breaks, set) => {
    const left = await breaks.index("set").getAll(set.id);
    if (set.startSent || left.some((b) => b.deleted === undefined)) return;
    for (const b of left) await breaks.delete(b.id);
    await sets.delete(set.id);
  };
  // letStuckGo lets breaks go that are stuck: the student has said so.
  bw.letStuckGo = (id) => write(async (sets, breaks) => {
    const set = await sets.get(id);
    for (const b of bw.stuck({ ...set, breaks: await breaks.index("set").getAll(id) })) await breaks.delete(b.id);
    await endWhenEmpty(sets, breaks, set);
  });
  bw.addNote = (id, text) => write((_s, _b, kept) => kept.put({ set: id, note: bw.newID(), text }, `note ${id}`));
  bw.noteOf = (id) => bw.kept(`note ${id}`);

  // renumber gives a break whose number another one has there the next free one,
  // or says that there is none. It is one revision on, so that a late copy under
  // the old number loses.
  bw.renumber = async (sets, breaks, b, there) => {
    const set = /** @type {KeptSet} */ (await sets.get(b.set));
    const here = (await breaks.index("set").getAll(b.set)).filter((o) => o.id !== b.id);
    const number = freeNumber([...here, { number: there.content.number }], set.planned);
    if (!number) return { ...b, refused: { because: "full", why: "the set is full: another phone has recorded the rest of it", there } };
    return { ...b, number, wasNumber: b.wasNumber || b.number, revision: b.revision + 1, content: JSON.stringify({ ...JSON.parse(b.content), number }), refused: undefined };
  };

  // settle ends a disagreement the way the student chose: "mine" replaces what
  // is there, "theirs" lets mine go. A delete is settled the same way.
  bw.settle = (id, choice) => write(async (_sets, breaks) => {
    const b = await breaks.get(id);
    const { there } = b.refused;
    if (choice === "mine") {
      await breaks.put({ ...b, revision: Math.max(b.revision, there?.revision || 0) + 1, acked: there?.revision || b.acked, refused: undefined });
    } else if (there && there.id === id) {
      await breaks.put({ id, set: b.set, person: b.person, number: there.content.number, revision: there.revision, acked: there.revision, content: JSON.stringify(there.content), coach: there.coach, order: 0 });
    } else await breaks.delete(id); // what the server has of it comes with the next fetch
  });
})();
