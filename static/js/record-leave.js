// After the cue ball: where the lowest balls lie, and whether there is a shot. Only
// for drills that watch what a break leaves. What is found is filled in, and one
// tap says otherwise.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  const most = 3; // balls to place
  let asked = ""; // the leave that was looked at last
  let /** @type {ReturnType<Bw["findShots"]>} */ answer = { shot: "", ball: 0, certain: false, shots: [] };

  /** @param {Entry} e @param {Plan} plan @param {number} n */
  const isDown = (e, plan, n) => (n === plan.wing && e.wing === "made") || e.balls[n]?.pocket || e.balls[n]?.off;
  /** @param {Entry} e @param {Plan} plan @returns {number[]} */
  const up = (e, plan) => Array.from({ length: plan.balls }, (_, i) => i + 1).filter((n) => !isDown(e, plan, n));
  const isWon = (e, plan) => plan.setup.game === "nine-ball" && (e.balls[9]?.pocket || (plan.wing === 9 && e.wing === "made"));

  const step = (bw.leaveStep = /** @type {Bw["leaveStep"]} */ ({}));
  // isOffered: the breaker is at the table, with a shot to look for. A ball off the
  // table is a foul.
  step.isOffered = (e, plan) =>
    Boolean(plan.leave) && e.cue?.how === "stopped" && !isWon(e, plan) && !Object.values(e.balls).some((b) => b.off);
  // lowest are the balls that may be placed.
  step.lowest = (e, plan) => up(e, plan).filter((n) => plan.setup.game !== "eight-ball" || n !== 8).slice(0, most);
  // next is the one that a tap places, 0 when all are.
  step.next = (e, plan) => (step.isOffered(e, plan) && step.lowest(e, plan).find((n) => !("x" in (e.balls[n] || {})))) || 0;

  /** @param {Entry} e @param {Plan} plan */
  const find = (e, plan) => {
    const all = up(e, plan), at = (n) => e.balls[n] && "x" in e.balls[n];
    const leave = {
      table: plan.leave, game: plan.setup.game, cue: [e.cue?.x, e.cue?.y],
      placed: all.filter(at).map((n) => ({ ball: n, at: [e.balls[n].x, e.balls[n].y] })), unplaced: all.filter((n) => !at(n)),
    };
    const text = JSON.stringify(leave);
    if (text !== asked && bw.findShots) [asked, answer] = [text, bw.findShots(leave)];
    return answer;
  };
  // load fetches the finder, which only those need who look for shots; without it
  // the student reports whether there is one.
  step.load = () => new Promise((done) => {
    const script = bw.element("script", { src: $("leave").dataset.finder, onload: done, onerror: done });
    document.head.append(script);
  });
  // fill puts in what the places say, unless somebody said otherwise.
  step.fill = (e, plan) => {
    if (!plan.leave) return;
    const found = (step.isOffered(e, plan) && find(e, plan).shot) || undefined;
    if (found === e.found) return;
    if (e.shot === undefined || e.shot === e.found) e.shot = found;
    e.found = found;
  };

  const saysWords = (e, plan) => {
    if (!e.found) return "Then the shot is found. Or say it yourself.";
    const { ball, shots: ways, certain } = find(e, plan), direct = ways.find((s) => s.way === "direct");
    const best = e.found === "open" ? direct : ways[0]; // only a direct shot makes a leave open
    if (e.found === "none" || !best) return `Found: no shot on the ${ball}.`;
    const only = direct && direct.chance >= bw.hardLine ? "a" : "only a";
    const how = best.way === "direct" ? e.found : `${only} ${best.way}`;
    return `Found: ${how} on the ${ball} into ${bw.pocketWords(best.pocket)}, ${bw.chanceWords(best.chance)}${certain ? "" : ", if nothing else lies on the line"}.`;
  };
  // show fills the group of buttons; ball is the one that a tap places.
  step.show = (e, plan, ball) => {
    if (!step.isOffered(e, plan)) return;
    $("leave-name").textContent = ball ? `Tap where the ${ball} stopped` : "Is there a shot?";
    $("leave-says").textContent = saysWords(e, plan);
    $("close-leave").textContent = e.wing === "not-watched" ? "Other balls…" : "Wing ball…";
    for (const chip of document.querySelectorAll("[data-shot]")) chip.setAttribute("aria-pressed", String(e.shot === chip.dataset.shot));
  };
  // start wires the buttons; say(shot) is called for a tap.
  step.start = (say, back) => {
    for (const chip of document.querySelectorAll("[data-shot]")) chip.addEventListener("click", () => say(chip.dataset.shot ?? ""));
    $("close-leave").addEventListener("click", back);
  };
})();
