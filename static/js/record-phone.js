// Makes a student's phone ready for a hall without a signal: it remembers who
// is signed in, keeps the pages, starts sets on the phone, and says on every
// page what still waits here. Without it the pages work as plain forms.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  const keptPages = 40;
  const link = (href, textContent) => bw.element("a", { href, textContent, className: "button" });
  // row is a line of a list: what it is, and where to go on with it.
  const row = (textContent, href, go) => {
    const line = document.createElement("li");
    line.append(bw.element("span", { className: "grow", textContent }), link(href, go));
    return line;
  };

  const worker = async () => {
    if (!("serviceWorker" in navigator)) return;
    await navigator.serviceWorker.register("/sw.js").catch(() => {}); // for example on plain http
  };
  // keepPages has the worker keep today's pages, the drills of the table broken
  // on last first, and the list of training with what it leads to.
  const keepPages = async () => {
    const held = await bw.held();
    if (!held || !navigator.serviceWorker?.controller) return;
    const tables = [...held.tables].sort((a, b) => Number(b.id === held.last_table) - Number(a.id === held.last_table));
    const drills = held.tasks.map((task) => `/today/${task.assignment}`);
    const pages = ["/today", "/my/sets", "/my/card", "/my/progress", "/my/training", ...drills, ...tables.flatMap((t) => drills.map((d) => `${d}?table=${t.id}`))];
    const mark = JSON.stringify([held.tasks, held.plans, held.tables, held.sets.map((set) => set.id), held.last_start, new Date().toDateString()]);
    navigator.serviceWorker.controller.postMessage({ person: held.person, mark, keep: pages.slice(0, keptPages), finder: held.plans.some((plan) => plan.leave) });
  };

  // Sets that are open on this phone are gone on with on the page at the table.
  const lead = async () => {
    const open = (await bw.mySets()).filter((set) => !set.closed);
    for (const set of open) {
      const links = document.querySelectorAll(`a[href="/my/sets/${set.id}"], a[href="/my/sets/${set.id}/next"]`);
      for (const a of links) a.href = `/table?set=${set.id}`;
    }
    const full = await Promise.all((await bw.mySets()).map((set) => bw.getSet(set.id)));
    const away = full.filter((set) => set !== undefined).filter((set) => !set.discarding && (!set.startSent || (set.closed && !set.closeSent) || set.breaks.some((b) => b.refused)));
    const list = $("waiting");
    if (!list) return;
    list.hidden = !away.length;
    list.replaceChildren(...away.map((set) => {
      const stuck = bw.stuck(set).length, n = bw.live(set.breaks).length;
      const words = stuck ? bw.stuckWhy(set) : `${n} of ${set.planned} breaks, on this phone`;
      return row(`${set.drill}: ${words}`, `/table?set=${set.id}`, stuck ? "What now?" : set.closed ? "See it" : "Go on");
    }));
  };

  // shown is the plan that the page shows, which may be newer than what the phone
  // holds.
  const shown = (form) => (form.elements.plan?.value ? JSON.parse(form.elements.plan.value) : undefined);
  // start begins a set here and now; the server is sent it when it can be.
  const start = (form) => form.addEventListener("submit", async (event) => {
    if (event.defaultPrevented) return;
    event.preventDefault();
    // Another table was chosen than the page shows: that one is shown first.
    const chosen = document.querySelector("select[name=table]");
    if (chosen && chosen.value !== form.elements.table.value) return chosen.form?.requestSubmit();
    try {
      const held = await bw.held();
      const assignment = form.getAttribute("action").split("/")[2];
      const table = held?.tables.find((t) => t.id === form.elements.table.value);
      const training = form.elements.training?.value; // of their own: nobody assigned it
      const task = training ? { name: training, watch: form.elements.watch.value || undefined, ask: JSON.parse(form.elements.ask.value), breaks: Number(form.elements.breaks.value), on: {} } : held?.tasks.find((t) => t.assignment === assignment);
      if (!held || !table || !task) throw new Error("the phone does not hold what is to be broken");
      const id = bw.newID();
      await bw.startSet({
        id, person: held.person, assignment: training ? undefined : assignment, training, table: table.id, label: table.label,
        drill: task.name, watch: task.watch, ask: task.ask, planned: task.breaks, plan: shown(form) || held.plans[task.on[table.id]],
      });
      navigator.storage?.persist?.();
      location.assign(`/table?set=${id}`);
    } catch {
      form.submit(); // the server starts it
    }
  });

  const signOut = () => {
    const form = document.querySelector('form[action="/sign-out"]');
    form?.addEventListener("submit", async (event) => {
      event.preventDefault();
      // What waits here stays, for whoever recorded it; all else does not.
      await bw.forget().catch(() => {}); // a phone that keeps nothing has nothing to forget
      await bw.keep("signing-out", true).catch(() => {}); // until the server has heard it
      form.submit();
    });
  };

  // awayWords say why the page is shown that was not asked for: the worker names what
  // could not be sent.
  const awayWords = async () => {
    const asked = new URLSearchParams(location.search), unsent = asked.get("unsent");
    if (unsent === "/sign-out") return (await bw.kept("signing-out")) ? "Signed out on this phone. The club hears of it when there is a connection." : "Signed out.";
    if (unsent) return "There was no connection: what you sent did not go. Go back and send it again.";
    if (!bw.state.trouble) return "There is a connection now.";
    if (bw.state.trouble === "signed-out") return "You are signed out.";
    if (asked.get("table")) return "No connection, and that table’s page is not on this phone. Go back and start on the table shown: “Wrong table or drill?” moves a set to a table of the same size.";
    return "No connection just now.";
  };
  // home lists what this phone holds, for a page that is out of reach. Where it says
  // so already, it stays as it is.
  bw.home = async (place, words) => {
    const heading = words || (await awayWords());
    if (place.firstChild?.textContent === heading) return;
    const person = await bw.person(), held = await bw.held(), sets = await bw.mySets();
    const others = await bw.others(), out = !person || bw.state.trouble === "signed-out";
    const rows = sets.map((set) => row(`${set.drill || "A set"}, ${set.label || ""}`, `/table?set=${set.id}`, set.closed ? "See it" : "Go on"));
    for (const task of held?.tasks || []) rows.push(row(task.name, `/today/${task.assignment}`, "Open"));
    const add = (name, textContent, className = "") => place.append(bw.element(name, { textContent, className }));
    place.replaceChildren();
    add("h2", heading);
    add("p", out ? "Sign in to go on." : "This is what the phone holds. It goes to your coach when there is a connection.");
    if (others) add("p", `${others} unsent breaks of somebody else wait here, safe until that person signs in.`, "quiet");
    const list = bw.element("ul", { className: "rows" });
    list.append(...rows);
    if (rows.length) place.append(list);
    place.append(link(person ? "/today" : "/sign-in", out ? "Sign in" : "Try again"));
  };

  // forgetErased is the next page after somebody was erased.
  const forgetErased = async (notice) => {
    await bw.forget(notice.dataset.person);
    notice.append(" It holds nothing of them any more.");
  };

  const main = async () => {
    if ($("erased")) return forgetErased($("erased"));
    if (location.pathname === "/sign-in") {
      await bw.keep("signing-out", undefined);
      return bw.askErased();
    }
    worker();
    const phone = $("phone");
    if (!phone) return; // the page at the table looks after itself
    signOut();
    for (const form of document.querySelectorAll("form[data-start]")) start(form);
    if (await bw.kept("signing-out")) {
      await bw.exchange();
      return location.replace("/sign-in");
    }
    const before = await bw.person();
    if (before && before !== phone.dataset.person) await bw.forget(); // they did not sign out
    await bw.keep("person", phone.dataset.person);
    const say = async () => {
      await lead();
      const quiet = !bw.state.waiting && !bw.state.clashes?.length && !["signed-out", "person"].includes(bw.state.trouble);
      $("state").textContent = quiet ? "" : bw.stateWords();
      phone.className = quiet ? "" : "notice care";
    };
    addEventListener("bw-state", say);
    navigator.serviceWorker?.addEventListener("controllerchange", keepPages);
    await lead();
    await bw.exchange();
    await keepPages();
  };
  main().catch((error) => console.error(error)); // the plain pages are there
})();
