// Breaks that the server keeps otherwise, and the choice between the two; and those that
// found no place there, because their set was refused, is closed or is full, with
// the ways on: a new set, the old one opened again, a note to the coach, a file. None
// goes before the student says so.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  /** @type {Parameters<Bw["ways"]["start"]>[0]} */
  let ui; // from record-table.js

  const openClash = () => {
    const set = ui.set(), clash = bw.state.clashes?.find((b) => b.set === set.id);
    if (!clash?.refused) return;
    const { there, why, because } = clash.refused;
    const out = clash.deleted !== undefined;
    $("clash-name").textContent = `Break ${clash.number}`;
    $("clash-why").textContent = bw.capital(`${why}.`);
    $("clash-mine").textContent = out ? `Taken out: ${clash.deleted}.` : bw.breakWords(JSON.parse(clash.content), set.plan);
    $("clash-whose").textContent = there?.coach ? "Your coach’s" : "Kept already";
    $("clash-theirs").textContent = there ? bw.breakWords(there.content, set.plan) : because === "stale" ? "Taken out." : "As it was before.";
    document.querySelector("[data-choice=mine]").hidden = !there && because !== "stale";
    document.querySelector("[data-choice=mine]").textContent = out ? "Take it out" : "Keep mine";
    document.querySelector("[data-choice=theirs]").textContent = there ? "Keep theirs" : "Let mine go";
    $("clash").dataset.break = clash.id;
    $("clash").showModal();
  };
  const choose = async (choice) => {
    await bw.settle($("clash").dataset.break ?? "", choice);
    $("clash").close();
    await ui.done("");
  };

  // tables are those that breaks of this size can be put on, the set's own first, unless
  // it was put away.
  /** @param {WholeSet} set @param {Held} held */
  const tables = (set, held) => {
    const fit = held.tables.filter((t) => t.id === set.table || t.cloth === set.plan.cloth || !t.cloth);
    return fit.sort((a, b) => Number(b.id === set.table) - Number(a.id === set.table)).map((t) => bw.option(t.id, t.label));
  };
  const open = async () => {
    const set = ui.set(), held = await bw.held();
    if (!held) return;
    const stuck = bw.stuck(set), note = await bw.noteOf(set.id);
    $("ways-name").textContent = stuck.length === 1 ? "A break without a place" : `${bw.breaks(stuck.length)} without a place`;
    const fit = tables(set, held);
    $("ways-why").textContent = bw.stuckWhy(set) + (fit.length ? "" : " No other table here is of its size: send them to your coach, or download them.");
    bw.list($("ways-breaks"), stuck, set.plan, null);
    $("ways-drill").replaceChildren(bw.option("", "the same setup, without a drill"), ...held.tasks.map((t) => bw.option(t.assignment, t.name)));
    if (held.tasks.some((task) => task.assignment === set.assignment)) $("ways-drill").value = set.assignment;
    $("ways-table").replaceChildren(...fit);
    $("ways-new").hidden = $("ways-table").closest(".pair").hidden = !fit.length;
    $("ways-reopen").hidden = !set.closeSent || Boolean(set.reopenRefused);
    $("ways-note").disabled = Boolean(note && !note.why);
    $("ways-notice").textContent = !note ? "" : note.why ? `The note did not go: ${note.why}.` : note.sent ? "Your coach has them as a note." : "The note goes to your coach when there is a connection.";
    $("ways-go").textContent = "Let them go";
    delete $("ways-go").dataset.sure;
    if (!$("ways").open) $("ways").showModal();
  };

  const toNewSet = async () => {
    const set = ui.set(), held = await bw.held();
    if (!held) return;
    const task = held.tasks.find((t) => t.assignment === $("ways-drill").value);
    const table = $("ways-table").value;
    const id = await bw.putElsewhere(set.id, {
      id: bw.newID(), person: set.person, assignment: task?.assignment, table, plan: set.plan, planned: task?.breaks || set.planned,
      label: tables(set, held).find((o) => o.value === table)?.textContent ?? "", drill: task?.name || set.drill, training: task ? undefined : set.drill, watch: set.watch, ask: set.ask,
    });
    $("ways").close();
    location.assign(`/table?set=${id}`);
  };
  const note = async () => {
    const set = ui.set();
    const lines = bw.stuck(set).map((b) => `${b.number}. ${bw.breakWords(JSON.parse(b.content), set.plan)}.`);
    await bw.addNote(set.id, [`${set.drill}, ${set.label}: breaks that found no place in their set.`, ...lines].join("\n").slice(0, 2000));
    await bw.exchange();
    await open();
  };
  const reopen = async () => {
    $("ways").close();
    await bw.reopenSet(ui.set().id);
    await ui.done("");
  };
  // letGo asks once more.
  const letGo = async () => {
    const set = ui.set(), n = bw.stuck(set).length, button = $("ways-go");
    if (!button.dataset.sure) {
      button.dataset.sure = "asked";
      button.textContent = n === 1 ? "Yes, this break is lost then" : `Yes, these ${n} breaks are lost then`;
      return;
    }
    await bw.letStuckGo(set.id);
    $("ways").close();
    if (await bw.getSet(set.id)) await ui.done("");
    else location.assign("/today"); // the set went with them
  };
  // fill puts what the server needs for a break log into the form.
  const fill = () => {
    const set = ui.set();
    const { label, started, drill, plan } = set;
    $("ways-log").querySelector("[name=log]").value = JSON.stringify({ label, started, drill, kind: plan.kind, setup: plan.setup, breaks: bw.stuck(set).map((b) => JSON.parse(b.content)) });
  };
  bw.ways = {
    start(host) {
      ui = host;
      for (const b of document.querySelectorAll("[data-choice]")) b.addEventListener("click", () => choose(b.dataset.choice));
      bw.onTap({ "open-clash": openClash, "open-ways": open, "ways-new": toNewSet, "ways-note": note, "ways-reopen": reopen, "ways-go": letGo });
      $("ways-log").addEventListener("submit", fill);
    },
  };
})();
