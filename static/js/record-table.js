// The page at the table: a set of breaks from the first tap to the close. A
// break is in the phone's store before the page says so.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  if (!$("table")) return;
  const setID = new URLSearchParams(location.search).get("set") ?? "";
  const { entry } = bw, reopenMs = 10 * 60_000; // as store.ReopenWithin
  let /** @type {WholeSet} */ set, cloth = "", notice = "";

  const number = () => (entry.draft.edit ? set.breaks.find((b) => b.id === entry.draft.id)?.number ?? 0 : bw.nextNumber(set));
  // reload reads the set again; moved meanwhile, it has another picture and other
  // questions, and the page begins anew.
  const reload = async () => {
    const again = await bw.getSet(setID);
    if (again && (again.table !== set.table || again.assignment !== set.assignment)) location.reload();
    if (again) set = again;
    return again;
  };
  // after brings the page up to date when something was done, and sends it.
  const after = async () => {
    await bw.recount().catch(() => {});
    bw.exchange();
    await reload();
    show();
  };

  const head = (big, small, heading) => {
    $("number").textContent = big;
    $("planned").textContent = small;
    $("heading").textContent = heading;
    document.title = `${heading} · Breakwright`;
  };
  const show = () => {
    const live = bw.live(set.breaks);
    const entering = !set.closed && (entry.draft.edit || bw.nextNumber(set) > 0);
    $("entry").hidden = !entering;
    $("review").hidden = entering;
    $("heading").classList.toggle("unseen", entering);
    if (entering) {
      const n = number();
      head(`Break ${n}`, `of ${set.planned}`, entry.draft.edit ? `Change break ${n}` : `Break ${n} of ${set.planned}`);
      entry.show(entry.touched() ? "" : notice);
    } else showReview(live);
    $("undo").disabled = Boolean(set.closed) || (!entry.touched() && !set.breaks.some((b) => b.order));
    $("list-name").textContent = `So far: ${live.length} of ${set.planned}`;
    $("list-counts").textContent = live.length ? bw.countWords(live, set.plan) : "No break yet.";
    $("close-early").hidden = Boolean(set.closed) || live.length === 0;
    $("discard").hidden = Boolean(set.closed) || live.length > 0;
    $("open-move").hidden = Boolean(set.closed);
    bw.list($("list-breaks"), live, set.plan, set.closed ? null : edit);
    showState();
  };
  /** @param {KeptBreak[]} all */
  const showReview = (all) => {
    const live = all.filter((b) => b.refused?.because !== "full"); // what found no place stands in the word above
    const closed = Boolean(set.closed), seen = set.closeSent;
    head(closed ? "Closed" : "All in", `${live.length} of ${set.planned}`, closed ? "What these breaks show" : `All ${live.length} breaks are recorded`);
    $("review-says").textContent = set.reopenRefused ? `It stays closed: ${set.reopenRefused}.` : set.closeRefused ? `It could not be closed: ${set.closeRefused}.`
      : closed ? "This is the first reading, made on this phone." : "Look them over: each can still be changed. Close the set to see what it says.";
    $("unseen").hidden = !closed || seen;
    $("close-set").hidden = closed;
    $("reopen-set").hidden = !closed || Boolean(set.reopenRefused) || Date.now() - Date.parse(set.closed ?? "") > reopenMs;
    $("to-set").hidden = !seen;
    $("to-set").href = `/my/sets/${set.id}`;
    $("review-counts").textContent = bw.countWords(live, set.plan);
    bw.spread($("review-picture"), cloth, live, set.plan);
    bw.list($("review-breaks"), live, set.plan, closed ? null : edit);
  };
  const showState = () => {
    $("state").textContent = set?.breaks.length || bw.state.waiting ? bw.stateWords(true) : "";
    const clash = bw.state.clashes?.find((b) => b.set === set?.id);
    const stuck = set ? bw.stuck(set).length : 0;
    $("open-clash").hidden = !clash;
    $("open-ways").hidden = !stuck;
    $("to-sign-in").hidden = bw.state.trouble !== "signed-out" || !set;
    const words = stuck ? bw.stuckWhy(set) : clash ? `Break ${clash.number} is not with your coach: ${clash.refused?.why}.` : set?.refusedWords ? bw.capital(`${set.refusedWords}.`)
      : set?.startRefused ? `This set stays on this phone: ${set.startRefused}.` : $("to-sign-in").hidden ? "" : "You are signed out: breaks stay on this phone.";
    $("word").hidden = !words;
    $("word").querySelector("p").textContent = words;
  };

  const restHint = () => {
    const done = bw.live(set.breaks).length + 1;
    if (done >= set.planned) return "";
    const half = done * 2 === set.planned;
    bw.rest(half ? 120 : done % 2 ? 0 : 60);
    if (half) return "Half way: sit down for two minutes.";
    return done % 2 ? "Breathe, chalk, rack the same way." : "Rest a minute before the next.";
  };
  const save = async () => {
    bw.details.settle();
    if (entry.missing()) return entry.nudge();
    const { id, edit: again, base, entry: tapped } = entry.draft;
    const write = (n, at) => bw.contentOf(tapped, set.plan, n, at);
    $("save").disabled = true;
    try {
      const b = await bw.saveBreak({ setID, id, edit: again, base }, write);
      notice = `Break ${b.number} saved on this phone. ${again ? "" : restHint()}`;
      entry.take();
    } catch (error) {
      if (changed(error)) return undefined;
      if (!(await full(error, id, again, write))) return undefined;
    } finally {
      $("save").disabled = false;
    }
    await after();
    if (!$("review").hidden) $("main").focus();
    return undefined;
  };
  // changed is for a break that another tab changed while it was being changed
  // here: the student sees that, and saving once more is their choice.
  const changed = (error) => {
    if (error?.message !== "changed") return false;
    entry.draft.base = error.there.revision;
    const there = error.there.deleted === undefined ? bw.breakWords(JSON.parse(error.there.content), set.plan) : "taken out";
    entry.say(`Changed in another tab meanwhile: ${there}. Save again to keep yours instead.`, true);
    return true;
  };
  // full is for a phone that cannot keep any more: the break goes straight to
  // the server, or stays on the screen.
  const full = async (error, id, again, write) => {
    if (error?.message === "full") {
      notice = "The set is full: another tab has recorded the rest of it.";
      return true;
    }
    const n = number(), content = write(n, new Date().toISOString());
    if (!again && (await bw.sendStraight(set, id, content))) {
      notice = `This phone’s storage is full: break ${n} went straight to your coach. Make room on the phone.`;
      set.breaks.push({ id, set: setID, person: set.person, number: n, revision: 1, acked: 1, content, order: 0 });
      entry.take();
      show();
      return false;
    }
    const why = error?.name === "QuotaExceededError" ? "this phone’s storage is full" : "this phone’s storage gives trouble";
    entry.say(`Not saved: ${why}. Make room, or write break ${n} down; it stays on this screen.`, true);
    return false;
  };
  const undo = async () => {
    if (entry.touched()) return entry.undo();
    notice = "";
    const back = await bw.undo(setID);
    if (back?.isNew) {
      entry.take({ id: back.id, edit: false, entry: bw.entryOf(JSON.parse(back.content), set.plan), past: [] });
      await bw.keepDraft(setID, entry.draft);
    } else {
      entry.take();
      if (back) notice = `Break ${back.number} is as it was.`;
    }
    return after();
  };
  /** @param {KeptBreak} b */
  const edit = (b) => {
    $("list").close();
    entry.take({ id: b.id, edit: true, base: b.revision, entry: bw.entryOf(JSON.parse(b.content), set.plan), past: [] });
    $("reason").value = "";
    show();
    $("save").focus();
  };
  const draftOf = async () => {
    const draft = await bw.draft(setID).catch(() => undefined);
    return draft?.edit ? undefined : draft && { ...draft, own: false };
  };
  const leaveEdit = async () => {
    entry.take(await draftOf());
    show();
  };
  const remove = async () => {
    const reason = $("reason").value.trim();
    $("reason-wrong").hidden = Boolean(reason);
    if (!reason) return $("reason").focus();
    notice = `Break ${number()} is taken out; your coach sees why.`;
    await bw.deleteBreak(setID, entry.draft.id, reason);
    $("details").close();
    entry.take(await draftOf());
    return after();
  };
  const close = async () => {
    await bw.closeSet(setID);
    $("list").close();
    await reload();
    show();
    $("main").focus();
    await bw.exchange();
    await reload();
    show();
    if (set.closeSent) location.assign(`/my/sets/${set.id}`);
  };

  // The screen stays awake while a set is recorded, where it can.
  const stayAwake = async () => {
    if (!navigator.wakeLock || document.visibilityState !== "visible" || !set || set.closed) return;
    await navigator.wakeLock.request("screen").catch(() => {}); // a low battery, for example
  };
  const hand = () => document.body.classList.toggle("left-hand", localStorage.hand === "left");

  const wire = () => {
    for (const b of document.querySelectorAll("[data-close]")) b.addEventListener("click", () => b.closest("dialog").close());
    bw.onTap({
      save, undo, "leave-edit": leaveEdit, delete: remove, "close-set": close,
      "open-list": () => $("list").showModal(), "open-details": () => $("details").showModal(),
      "reopen-set": async () => { await bw.reopenSet(setID); await after(); },
      "swap-hands": () => {
        localStorage.hand = localStorage.hand === "left" ? "" : "left";
        hand();
        $("list").close();
      },
      "swap-rest": () => {
        bw.swapRest();
        $("list").close();
      },
    });
    bw.ways.start({ set: () => set, done: after });
    bw.whole.start({ set: () => set, close });
    entry.start({ set: () => set, number, changed: show });
    document.addEventListener("visibilitychange", stayAwake);
    const refresh = async () => {
      if (!set) await refreshHome();
      else if (await reload()) {
        notice = entry.adopt(set.breaks) || notice;
        show();
      }
    };
    addEventListener("bw-state", refresh);
    bw.onChange(refresh); // another page on this phone did something
  };

  const fact = (name, text) => bw.element(name, { textContent: text });
  const begin = async () => {
    const held = await bw.held();
    const there = setID ? await bw.getSet(setID) : undefined;
    if (!there || !held) return false;
    set = there;
    cloth = held.cloths[set.plan.cloth];
    entry.begin(cloth);
    entry.take(await draftOf());
    if (entry.touched()) notice = "You had begun this break: here it is.";
    const [line, more] = [set.plan.change, set.watch].filter(Boolean);
    $("watching").hidden = !line;
    $("watch-line").textContent = line || "";
    $("watch").textContent = more || "";
    $("parts").replaceChildren(...set.plan.parts.flatMap((p) => [fact("dt", p.Name), fact("dd", p.Words)]));
    if (set.assignment) $("to-drill").href = `/today/${set.assignment}?table=${set.table}`;
    show();
    if (notice && entry.missing()) entry.say(`${notice} ${entry.missing()}`);
    stayAwake();
    return true;
  };
  // home is for a set that is not on this phone, or a page that is out of reach.
  const home = async () => {
    head("At the table", "", "At the table");
    $("entry").hidden = true;
    $("home").hidden = false;
    for (const id of ["open-list", "undo"]) $(id).disabled = true;
    await bw.home($("home"), setID && !bw.state.trouble ? "This set is not on this phone." : "");
    showState();
  };
  // refreshHome is for news of the connection: the set may have come with it.
  const refreshHome = async () => {
    if ($("home").hidden) return;
    if ((await bw.held()) && (await bw.getSet(setID))) location.reload();
    else await home();
  };

  const main = async () => {
    wire();
    $("to-sign-in").href += encodeURIComponent(location.search);
    hand();
    $("table").hidden = false;
    try {
      if (await begin()) {
        if (bw.stuck(set).length) await bw.recount();
        bw.exchange();
        return;
      }
      $("state").textContent = "Fetching the set…";
      await bw.exchange();
      if (!(await begin())) await home();
    } catch (error) {
      // A phone that keeps nothing still has the plain page.
      console.error(error);
      if (setID) location.replace(`/my/sets/${setID}/next?plain`);
    }
  };
  main();
})();
