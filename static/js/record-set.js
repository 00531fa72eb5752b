// What is done with a set as a whole before it is full: closed early, put away
// when it is empty, moved when it was begun on the wrong table or drill.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  /** @type {Parameters<Bw["whole"]["start"]>[0]} */
  let ui; // from record-table.js

  // missingWords says what an early close leaves out.
  /** @param {WholeSet} set */
  const missingWords = (set) => {
    const n = bw.live(set.breaks).length, left = set.planned - n;
    return `${bw.breaksAre(left)} missing: ${n} of ${set.planned} recorded. Fewer breaks say less. It can be opened again for ten minutes.`;
  };
  const askEarly = () => {
    $("early-says").textContent = missingWords(ui.set());
    $("list").close();
    $("early").showModal();
  };
  const closeAnyway = () => {
    $("early").close();
    return ui.close();
  };
  const discard = async () => {
    await bw.discardSet(ui.set().id);
    await bw.exchange();
    location.assign("/today");
  };

  // Where a set can be moved: every drill that waits and, for the drill chosen,
  // every table; without a drill the tables of the same size.
  /** @param {Held} held */
  const fillTables = (held) => {
    const set = ui.set(), task = held.tasks.find((t) => t.assignment === $("move-drill").value);
    const tables = held.tables.filter((t) => task || t.cloth === set.plan.cloth);
    $("move-table").replaceChildren(...tables.map((t) => bw.option(t.id, t.label)));
    $("move-table").value = tables.some((t) => t.id === set.table) ? set.table : tables[0]?.id;
  };
  const askMove = async () => {
    const set = ui.set(), held = await bw.held();
    if (!held) return;
    const known = held.tasks.some((t) => t.assignment === set.assignment);
    $("move-drill").replaceChildren(...(known ? [] : [bw.option("", set.drill)]), ...held.tasks.map((t) => bw.option(t.assignment, t.name)));
    $("move-drill").value = known ? set.assignment : "";
    $("move-drill").onchange = () => fillTables(held);
    fillTables(held);
    $("list").close();
    $("move").showModal();
  };
  const move = async () => {
    const set = ui.set(), held = await bw.held(), table = held?.tables.find((t) => t.id === $("move-table").value);
    const task = held?.tasks.find((t) => t.assignment === $("move-drill").value);
    $("move").close();
    if (!held || !table || (table.id === set.table && (!task || task.assignment === set.assignment))) return;
    const to = { table: table.id, label: table.label, plan: task ? held.plans[task.on[table.id]] : set.plan };
    if (task && task.assignment !== set.assignment) Object.assign(to, { assignment: task.assignment, drill: task.name, watch: task.watch, ask: task.ask, training: undefined });
    await bw.moveSet(set.id, to);
    await bw.exchange();
    location.reload();
  };
  bw.whole = {
    start(host) {
      ui = host;
      bw.onTap({ "close-early": askEarly, "close-anyway": closeAnyway, discard, "open-move": askMove, "move-set": move });
    },
  };
})();
