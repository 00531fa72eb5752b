// What a break is in words, and how it is written down. The words are those of
// packages component and table, and a test holds them to be the same.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const notWatched = "not-watched"; // the wing ball of a drill that asks for the cue ball alone
  const ball = 2.25; // a ball's diameter in inches, as in package table

  const along = (y, length) => {
    if (y <= ball) return "on the head rail";
    if (y >= length - ball) return "on the foot rail";
    if (y < length / 4) return "behind the head string";
    if (y <= length / 2) return "between the head string and the centre";
    if (y <= (length * 3) / 4) return "between the centre and the foot spot";
    return "foot end";
  };
  const across = (x, width) => {
    const side = x > 0 ? "right" : "left";
    if (Math.abs(x) <= width / 4) return "middle";
    if (Math.abs(x) >= width / 2 - ball) return `on the ${side} rail`;
    return `${side} side`;
  };
  // zone names a place on the table of a plan.
  bw.zone = (at, plan) => `${along(at.y, plan.length)}, ${across(at.x, plan.width)}`;

  const places = { head: "head corner", side: "side pocket", foot: "foot corner" };
  bw.pockets = ["head-left", "head-right", "side-left", "side-right", "foot-left", "foot-right"];
  bw.pocketWords = (pocket) => {
    const [end, side] = pocket.split("-");
    return `the ${side} ${places[end]}`;
  };
  const misses = { "side-rail": "side rail first", "foot-rail": "foot rail first", kissed: "kissed by another ball", jaws: "rattled in the jaws" };
  const paths = { back: "back off the rack", "head-rail": "off the head rail", forward: "on forward", hit: "hit by another ball" };
  const shots = { open: "an open shot", hard: "a hard shot", none: "no shot" };
  // breaks counts breaks: "1 break", "3 breaks"; breaksAre goes on: "1 break is".
  bw.breaks = (n) => (n === 1 ? "1 break" : `${n} breaks`);
  bw.breaksAre = (n) => `${bw.breaks(n)} ${n === 1 ? "is" : "are"}`;
  bw.capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

  /** @param {BreakContent} b */
  const dropped = (b) => b.pocketed || [];
  /** @param {BreakContent} b */
  const isWatched = (b) => b.wing_miss !== notWatched;
  bw.wingMade = (b, plan) => isWatched(b) && dropped(b).some((p) => p.ball === plan.wing && p.pocket === plan.pocket);
  bw.inWindow = (b, plan) => {
    const [left, right, head, foot] = plan.window;
    const { how, x = NaN, y = NaN } = b.cue;
    return how === "stopped" && x >= left && x <= right && y >= head && y <= foot;
  };
  /** @param {BreakContent} b @param {Plan} plan */
  const wingWords = (b, plan) => {
    const wing = `the ${plan.wing}`;
    const down = dropped(b).find((p) => p.ball === plan.wing);
    if (b.off?.includes(plan.wing)) return `${wing} off the table`;
    if (!isWatched(b) && !down) return `${wing} not watched`;
    if (bw.wingMade(b, plan)) return `${wing} in its corner`;
    if (down) return `${wing} in ${bw.pocketWords(down.pocket)}`;
    return `${wing} stayed up${misses[b.wing_miss] ? `, ${misses[b.wing_miss]}` : ""}`;
  };
  /** @param {BreakContent} b @param {Plan} plan */
  const cueWords = (b, plan) => {
    if (b.cue.how === "scratch") return `scratch in ${bw.pocketWords(b.cue.pocket ?? "")}`;
    if (b.cue.how === "off-table") return "the cue ball off the table";
    return `the cue ball ${bw.zone(b.cue, plan)}${paths[b.cue_path] ? `, ${paths[b.cue_path]}` : ""}`;
  };
  // breakWords says in one line what is recorded of a break.
  bw.breakWords = (b, plan) => {
    const parts = [wingWords(b, plan)];
    const others = dropped(b).filter((p) => p.ball !== plan.wing);
    if (others.length) parts.push(`also down: ${others.map((p) => `the ${p.ball} in ${bw.pocketWords(p.pocket)}`).join(", ")}`);
    for (const n of b.off || []) if (n !== plan.wing) parts.push(`the ${n} off the table`);
    parts.push(cueWords(b, plan));
    if (b.shot) parts.push(shots[b.shot]);
    if (b.racked) parts.push(b.racked === "tight" ? "the rack tight" : "a gap in the rack");
    return bw.capital(parts.join("; "));
  };
  // speedWords says a speed in the club's units, which stand at the drawer of details.
  bw.speedWords = (mph) => {
    const { mile, speed } = document.getElementById("details").dataset;
    return `${Math.round(mph * Number(mile) * 10) / 10} ${speed}`;
  };
  // allWords says all that is recorded of a break, before it is saved.
  bw.allWords = (b, plan) => {
    const parts = [bw.breakWords(b, plan)];
    for (const r of b.rest || []) parts.push(`the ${r.ball} ${bw.zone(r, plan)}`);
    if (b.cue_path === "unknown") parts.push("how it got there not seen");
    if (b.rails !== undefined) parts.push(`${b.rails} to a rail`);
    if (b.past_string !== undefined) parts.push(`${b.past_string} past the head string`);
    if (b.ran_out) parts.push(b.ran_out === "yes" ? "run out" : "not run out");
    if (b.speed) parts.push(bw.speedWords(b.speed));
    if (b.note) parts.push(`“${b.note}”`);
    return parts.join("; ");
  };
  // counts are what is counted first of a set's breaks.
  bw.counts = (breaks, plan) => ({
    breaks: breaks.length,
    watched: breaks.filter(isWatched).length,
    wing: breaks.filter((b) => bw.wingMade(b, plan)).length,
    window: breaks.filter((b) => bw.inWindow(b, plan)).length,
    scratches: breaks.filter((b) => b.cue.how === "scratch").length,
    dry: breaks.filter((b) => isWatched(b) && !dropped(b).length).length,
    off: breaks.filter((b) => b.off?.length || b.cue.how === "off-table").length,
  });

  const filled = (list) => (list.length ? list : undefined);
  // contentOf writes an entry down as the server does: the same bytes for the
  // same break. An entry holds what was tapped:
  //   wing   "made", "up", a miss, "else" with its place in balls, or "not-watched"
  //   balls  number → {pocket}, {off} or {x, y}
  //   cue    {how, x, y, pocket}, and the words and counts of a break
  bw.contentOf = (entry, plan, number, at) => {
    const numbers = Object.keys(entry.balls).map(Number).sort((a, b) => a - b);
    const fate = (n) => (n === plan.wing && entry.wing === "made" ? { pocket: plan.pocket } : entry.balls[n]);
    if (entry.wing === "made" && !numbers.includes(plan.wing)) numbers.push(plan.wing);
    numbers.sort((a, b) => a - b);
    const made = filled(numbers.filter((n) => fate(n).pocket).map((n) => ({ ball: n, pocket: fate(n).pocket })));
    const stayed = entry.wing in misses || ["unknown", notWatched].includes(entry.wing);
    const { how, x, y, pocket } = /** @type {CueBall} */ (entry.cue);
    return JSON.stringify({
      number, at, pocketed: made,
      off: filled(numbers.filter((n) => fate(n).off)),
      cue: how === "stopped" ? { how, x, y } : { how, pocket },
      wing_miss: stayed ? entry.wing : undefined,
      cue_path: (how === "stopped" && entry.cue_path) || undefined,
      rest: filled(numbers.filter((n) => "x" in fate(n)).map((n) => ({ ball: n, x: fate(n).x, y: fate(n).y }))),
      rails: entry.rails ?? undefined, past_string: entry.past_string ?? undefined,
      shot: entry.shot || undefined, ran_out: entry.ran_out || undefined, racked: entry.racked || undefined,
      speed: entry.speed || undefined, note: entry.note?.trim() || undefined,
    });
  };
  bw.emptyEntry = (ask) => ({ wing: ask?.cue_only ? notWatched : "", balls: {}, cue: null });
  // entryOf is the inverse of contentOf, for a break that is opened again.
  bw.entryOf = (b, plan) => {
    const entry = { wing: b.wing_miss || "up", balls: {}, cue: b.cue };
    for (const p of dropped(b)) entry.balls[p.ball] = { pocket: p.pocket };
    for (const n of b.off || []) entry.balls[n] = { off: true };
    for (const r of b.rest || []) entry.balls[r.ball] = { x: r.x, y: r.y };
    const wing = isWatched(b) && entry.balls[plan.wing];
    if (wing?.pocket || wing?.off) entry.wing = wing.pocket === plan.pocket ? "made" : "else";
    if (entry.wing === "made") delete entry.balls[plan.wing];
    for (const name of ["cue_path", "rails", "past_string", "shot", "ran_out", "racked", "speed", "note"]) if (name in b) entry[name] = b[name];
    return entry;
  };
})();
