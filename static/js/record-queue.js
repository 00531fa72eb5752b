// Sends what is only on this phone to the server, and fetches what the phone
// should hold. Whether there is a connection is learned by trying: at once when
// the page opens, comes to the front or something is saved, and with longer and
// longer pauses while it fails. Nothing leaves the phone's store before the
// server has answered for it.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const longestPauseMs = 60_000, patienceMs = 15_000, batchItems = 40, clockSlackMs = 12 * 3600_000;
  const state = { unsent: 0, trouble: "", clockOff: false };
  bw.state = state;
  const tell = () => dispatchEvent(new Event("bw-state"));

  /** @param {WholeSet} set */
  const startOf = (set) => {
    const start = { kind: "start", set: set.id, table: set.table, at: set.started, setup: set.plan.setup };
    return set.assignment ? { ...start, assignment: set.assignment } : { ...start, training: set.training || set.drill, window: set.plan.window, breaks: set.planned };
  };
  // itemsOf lists what of a set is only here: what was deleted goes first, so
  // that its number is free for the break that took it.
  bw.itemsOf = (set) => {
    if (set.startRefused) return [];
    /** @type {SyncItem[]} */
    const items = [];
    if (!set.startSent) items.push(startOf(set));
    else if (set.moving) items.push({ kind: "move", set: set.id, table: set.table, assignment: set.assignment || undefined });
    if (set.discarding) return [...items, { kind: "discard", set: set.id }];
    if (set.reopening) items.push({ kind: "reopen", set: set.id });
    const unsent = set.breaks.filter((b) => bw.isUnsent(b) && !b.refused);
    unsent.sort((a, b) => Number(b.deleted !== undefined) - Number(a.deleted !== undefined) || a.number - b.number);
    for (const b of unsent) {
      const item = { kind: "break", set: set.id, id: b.id, revision: b.revision, content: JSON.parse(b.content) };
      if (b.deleted === undefined) items.push(item);
      else if (b.acked) items.push({ kind: "delete", set: set.id, id: b.id, revision: b.revision, reason: b.deleted });
      // A break that was undone before it was sent leaves its trace too.
      else items.push({ ...item, revision: b.revision - 1 }, { kind: "delete", set: set.id, id: b.id, revision: b.revision, reason: b.deleted });
    }
    if (set.closed && !set.closeSent && !set.closeRefused && !set.breaks.some((b) => b.refused && b.deleted === undefined)) {
      items.push({ kind: "close", set: set.id, breaks: bw.live(set.breaks).length });
    }
    return items;
  };

  // takeSet notes an answer about a whole set.
  /** @param {SyncItem} item @param {SyncAnswer} answer @param {boolean} good @param {Sets} sets @param {Breaks} breaks */
  const takeSet = async (item, answer, good, sets, breaks) => {
    const set = await sets.get(item.set);
    if (!set) return;
    if (item.kind === "discard") {
      if (!good) return void (await sets.put({ ...set, discarding: undefined, refusedWords: answer.why }));
      for (const id of await breaks.index("set").getAllKeys(set.id)) await breaks.delete(id);
      return void (await sets.delete(set.id));
    }
    if (item.kind === "reopen") {
      Object.assign(set, { reopening: undefined, sentAt: Date.now() });
      if (!good) Object.assign(set, { reopenRefused: answer.why, closed: set.closed || new Date().toISOString(), closeSent: true });
    } else if (item.kind === "move") {
      Object.assign(set, { moving: undefined, sentAt: Date.now() });
      if (!good) set.refusedWords = answer.why; // the server's own comes with the next fetch
    } else if (good) Object.assign(set, { [`${item.kind}Sent`]: true, sentAt: Date.now() });
    else if (answer.because !== "waiting") set[`${item.kind}Refused`] = answer.why;
    await sets.put(set);
  };
  const ofSets = ["start", "close", "reopen", "move", "discard"];
  // take notes one answer in the phone's store.
  /** @param {SyncItem} item @param {SyncAnswer} answer @returns {Promise<unknown>} */
  const take = (item, answer) => bw.write(async (sets, breaks, kept) => {
    const good = answer.is !== "refused";
    if (ofSets.includes(item.kind)) return takeSet(item, answer, good, sets, breaks);
    if (item.kind === "note") return void (await kept.put({ set: item.set, note: item.note ?? "", text: item.text ?? "", sent: good, why: good ? undefined : answer.why }, `note ${item.set}`));
    const b = await breaks.get(item.id ?? "");
    if (!b) return undefined;
    return breaks.put(await takeBreak(item, answer, good, b, sets, breaks));
  });
  // takeBreak gives a break as it is after an answer.
  /** @param {SyncItem} item @param {SyncAnswer} answer @param {boolean} good @param {KeptBreak} b @param {Sets} sets @param {Breaks} breaks */
  const takeBreak = async (item, answer, good, b, sets, breaks) => {
    const next = { ...b, ackedAt: Date.now() }, { because, why, there } = answer;
    if (good || (item.kind === "delete" && because === "gone")) return { ...next, acked: Math.max(b.acked, item.revision ?? 0) };
    if (because === "closed") await closeHere(item.set, sets);
    if (b.revision !== item.revision) return b.deleted !== undefined && because === "conflict" && item.kind === "break" ? { ...next, acked: b.revision } : next; // undone, and its number is another's
    if (item.kind === "break" && because === "conflict" && there && there.id !== b.id) return bw.renumber(sets, breaks, next, there);
    return { ...next, refused: { because, why, there } };
  };
  // closeHere notes that a set was closed elsewhere.
  /** @param {string} id @param {Sets} sets */
  const closeHere = async (id, sets) => {
    const set = await sets.get(id);
    if (set && !set.closeSent) await sets.put({ ...set, closed: set.closed || new Date().toISOString(), closeSent: true });
  };

  class Trouble extends Error {}
  // forgetErased leaves the pages of who was erased; the one that says so, and the one
  // on which nobody is signed in, stay.
  const forgetErased = async (person) => {
    await bw.forget(person);
    if (!document.getElementById("erased") && location.pathname !== "/sign-in") location.replace("/sign-in");
  };
  // ask says whose breaks these are: whoever was erased may have no cookie any more.
  /** @param {string | undefined} person @param {RequestInit} [options] */
  const ask = async (person, options) => {
    let answer;
    try {
      answer = await fetch("/sync", { ...options, headers: { ...options?.headers, "Breakwright-Person": person || "" }, signal: AbortSignal.timeout?.(patienceMs) });
    } catch {
      throw new Trouble("unreachable");
    }
    const date = Date.parse(answer.headers.get("Date"));
    if (date) state.clockOff = Math.abs(date - Date.now()) > clockSlackMs;
    const json = (answer.headers.get("Content-Type") || "").startsWith("application/json");
    if (answer.headers.has("Breakwright-Erased")) await forgetErased(answer.headers.get("Breakwright-Erased"));
    if (answer.status === 401 || (answer.redirected && answer.url.includes("/sign-in"))) throw new Trouble("signed-out");
    if (answer.status === 409 && json) throw new Trouble("person");
    // A page of somebody else's in between, for example a hotel's, is no answer.
    if (!json) throw new Trouble(answer.status < 500 ? "unreachable" : "server");
    if (!answer.ok) throw new Trouble("server");
    try {
      return await answer.json();
    } catch {
      throw new Trouble("unreachable"); // cut off half-way
    }
  };

  // askErased is for a page on which nobody is signed in: who was erased is forgotten.
  bw.askErased = async () => {
    const person = await bw.person();
    if (person) await ask(person).catch(() => {}); // out of reach, or they only sign in again
  };

  // post sends items and gives their answers.
  /** @param {string} person @param {SyncItem[]} items @returns {Promise<SyncAnswer[]>} */
  const post = async (person, items) => (await ask(person, {
    method: "POST",
    headers: { "Content-Type": "application/json", "HX-Request": "true" }, // a script asks: 401, not a page
    body: JSON.stringify({ person, sent: new Date().toISOString(), items }),
  })).answers;
  /** @param {string} person @param {WholeSet} set */
  const send = async (person, set) => {
    const items = bw.itemsOf(set), note = await bw.noteOf(set.id);
    if (note && !note.sent && !note.why) items.push({ kind: "note", ...note });
    for (let at = 0; at < items.length; at += batchItems) {
      const batch = items.slice(at, at + batchItems);
      const answers = await post(person, batch);
      for (const [i, item] of batch.entries()) await take(item, answers[i]);
    }
  };
  // sendStraight is for a phone whose store is full: one break goes to the
  // server without being kept here. It reports whether it arrived.
  bw.sendStraight = async (set, id, content) => {
    const item = { kind: "break", set: set.id, id, revision: 1, content: JSON.parse(content) };
    try {
      const answers = await post(set.person, [...bw.itemsOf(set).filter((i) => i.kind === "start"), item]);
      return ["accepted", "had"].includes(answers.at(-1)?.is ?? "");
    } catch {
      return false;
    }
  };

  // merge puts what the server has into the phone's store, wherever the phone
  // has nothing newer of its own.
  /** @param {Held} held @param {number} askedAt */
  const merge = (held, askedAt) => bw.write(async (sets, breaks, kept) => {
    await kept.put(held, `held ${held.person}`);
    const open = new Set();
    for (const there of held.sets) {
      open.add(there.id);
      const here = (await sets.get(there.id)) || /** @type {KeptSet} */ ({ id: there.id, person: held.person, closed: null, closeSent: false, steps: 0 });
      if (here.person !== held.person) continue;
      const { breaks: theirs, plan, ...rest } = there;
      if (here.moving) Object.assign(rest, { table: here.table, label: here.label, assignment: here.assignment, drill: here.drill, watch: here.watch, ask: here.ask });
      const plain = here.moving ? here.plan : held.plans[plan];
      await sets.put({ ...here, ...rest, startSent: true, plan: plain, ...(here.closeSent && !((here.sentAt ?? 0) > askedAt) ? { closed: null, closeSent: false } : {}) });
      const mine = new Map((await breaks.index("set").getAll(there.id)).map((b) => [b.id, b]));
      for (const b of theirs) {
        const m = mine.get(b.id);
        mine.delete(b.id);
        if (m && (bw.isUnsent(m) || m.revision >= b.revision)) continue;
        await breaks.put({ id: b.id, set: there.id, person: held.person, number: b.content.number, revision: b.revision, acked: b.revision, content: JSON.stringify(b.content), coach: b.coach, order: 0 });
      }
      for (const m of mine.values()) if (!bw.isUnsent(m) && m.deleted === undefined && !((m.ackedAt ?? 0) > askedAt)) await breaks.delete(m.id);
    }
    if (held.all) await tidy(sets, breaks, held.person, open, askedAt);
  });

  // tidy takes leave of sets that the server has closed: a week after the
  // student closed them here, at once when it was done elsewhere.
  /** @param {Sets} sets @param {Breaks} breaks @param {string} person @param {Set<string>} open @param {number} askedAt */
  const tidy = async (sets, breaks, person, open, askedAt) => {
    const weekAgo = new Date(Date.now() - 7 * 86400_000).toISOString();
    for (const set of await sets.index("person").getAll(person)) {
      const left = await breaks.index("set").getAll(set.id);
      if (!set.startSent || (set.sentAt ?? 0) > askedAt || open.has(set.id) || left.some(bw.isUnsent)) continue;
      if (set.closed && (!set.closeSent || set.closed > weekAgo)) continue;
      await sets.delete(set.id);
      for (const b of left) await breaks.delete(b.id);
    }
  };

  const count = async () => {
    const sets = await bw.mySets();
    const full = (await Promise.all(sets.map((set) => bw.getSet(set.id)))).filter((set) => set !== undefined);
    state.unsent = full.reduce((sum, set) => sum + set.breaks.filter((b) => bw.isUnsent(b) && b.deleted === undefined).length, 0);
    const notes = await Promise.all(sets.map((set) => bw.noteOf(set.id)));
    state.waiting = full.some((set) => bw.itemsOf(set).length) || notes.some((note) => note && !note.sent && !note.why);
    state.clashes = full.flatMap((set) => set.breaks.filter((b) => b.refused && !bw.isStuck(b, set)));
    state.stuck = full.flatMap(bw.stuck);
    return full;
  };

  // signOut tells the server what it did not hear, before it gives anything to hold.
  const signOut = async () => {
    await fetch("/sign-out", { method: "POST", redirect: "manual", signal: AbortSignal.timeout?.(patienceMs) }).catch(() => { throw new Trouble("unreachable"); });
    await bw.keep("signing-out", undefined);
  };
  const once = async () => {
    if (await bw.kept("signing-out")) await signOut();
    const person = await bw.person();
    if (person) for (const set of await count()) await send(person, set);
    const askedAt = Date.now();
    const held = await ask(person);
    if (!person) await bw.keep("person", held.person); // the first page on this phone
    else if (held.person !== person) throw new Trouble("person");
    await merge(held, askedAt);
  };

  let timer, running, failures = 0, again = false;
  const locked = (work) => (navigator.locks ? navigator.locks.request("breakwright-sync", work) : work());
  // exchange sends and fetches, one page at a time. Asked while it runs, it runs
  // once more, and ends when all that is done.
  bw.exchange = () => {
    again = Boolean(running);
    running ??= run().finally(() => {
      running = undefined;
      if (again) bw.exchange();
    });
    return running;
  };
  const run = async () => {
    clearTimeout(timer);
    try {
      do {
        again = false;
        await locked(once);
      } while (again);
      state.trouble = "";
      failures = 0;
    } catch (error) {
      state.trouble = error instanceof Trouble ? error.message : "phone";
      failures += 1;
      if (!(error instanceof Trouble)) console.error(error);
    }
    await count().catch(() => {});
    tell();
    if (state.trouble || state.waiting) {
      const pause = Math.min(longestPauseMs, 1000 * 2 ** failures) * (0.75 + Math.random() / 2);
      timer = setTimeout(bw.exchange, pause);
    }
  };
  addEventListener("online", bw.exchange);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") bw.exchange(); });
  bw.recount = () => count().then(tell);

  // stateWords is the line that says where the breaks are; brief where the page has
  // said that they are saved, and has three short lines for it.
  bw.stateWords = (brief) => {
    const n = state.unsent;
    const breaks = bw.breaks(n);
    const clock = state.clockOff ? " This phone’s clock is off by a day or so: the order is kept by number." : "";
    if ((state.clashes?.length || state.stuck?.length) && !state.trouble) return `Saved on this phone. ${bw.capital(breaks)} not with your coach yet: look below.`;
    if (!n && !state.waiting) {
      if (state.trouble === "signed-out") return "With your coach. Sign in again before the next set." + clock;
      return "With your coach." + clock;
    }
    const what = n ? `${breaks} to send` : "a set to send";
    const why = {
      unreachable: `No connection: ${what}.`, server: `Server trouble: ${what}.`,
      "signed-out": `Sign in again to send${n ? ` ${breaks}` : ""}.`, person: "Somebody else is signed in: they wait for you.",
      phone: "This phone’s storage gives trouble.",
    }[state.trouble] || `${bw.capital(what)}.`;
    return `${brief ? "" : "Saved on this phone. "}${why}${clock}`;
  };
})();
