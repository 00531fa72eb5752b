// Long: one computation, rule by rule as in package leave.
// The shots that a break leaves: internal/leave in the phone, for where there is
// no signal. It gives the same answers; both are held to testdata/leave/cases.json.
// Why anything is as it is stands there; here are only its rules. Places are [x, y]
// in inches as everywhere, angles are in radians inside.
(() => {
  const bw = (globalThis.bw = globalThis.bw || {});
  const BALL = 2.25, RADIUS = BALL / 2, REACH = RADIUS * 0.96286;
  const HANGING = (80 * Math.PI) / 180, STEEPEST = (80 * Math.PI) / 180;
  const BRUSH = (14 * Math.PI) / 180, BRUSH_KEPT = 0.6, REBOUND = (3 * Math.PI) / 180, FAINTEST = 0.05;
  const CORNER_ROOMS = [[-45, 0.6], [-30, 0.71], [-15, 0.8], [0, 0.89], [15, 0.97], [25, 1.02], [45, 1.08]];
  const SIDE_ROOMS = [[-70, 0.58], [-64, 0.69], [-56, 0.4], [-45, 0.49], [-30, 0.62], [-15, 0.72], [0, 0.83],
    [15, 0.92], [30, 1], [45, 1.05], [60, 1.08], [70, 1.09]];
  const POCKETS = ["head-left", "head-right", "side-left", "side-right", "foot-left", "foot-right"];
  const RAILS = {
    "head-rail": ["head-left", "head-right"], "foot-rail": ["foot-left", "foot-right"],
    "left-rail": ["head-left", "side-left", "foot-left"], "right-rail": ["head-right", "side-right", "foot-right"],
  };
  const OPEN_LINE = 0.5;
  bw.hardLine = 0.1;
  bw.levels = { beginner: 0.35, club: 0.2, strong: 0.13, expert: 0.08 };

  // Ways from place to place.
  const way = (p, q) => [q[0] - p[0], q[1] - p[1]];
  const moved = (p, v, by = 1) => [p[0] + v[0] * by, p[1] + v[1] * by];
  const dot = (v, w) => v[0] * w[0] + v[1] * w[1];
  const cross = (v, w) => v[0] * w[1] - v[1] * w[0];
  const length = (v) => Math.hypot(v[0], v[1]);
  const unit = (v) => { const l = length(v); return l > 0 ? [v[0] / l, v[1] / l] : v; };
  const turned = (v, a) => [v[0] * Math.cos(a) - v[1] * Math.sin(a), v[0] * Math.sin(a) + v[1] * Math.cos(a)];
  const angle = (v, w) => Math.atan2(cross(v, w), dot(v, w));
  const without = (v, u) => moved(v, u, -dot(v, u));
  const root = (v) => Math.sqrt(Math.max(v, 0));

  // The table.
  const isSide = (pocket) => pocket.startsWith("side");
  const size = (t) => ({ long: (t.small ? { 7: 76, 8: 88 } : { 7: 78, 8: 92 })[t.feet] || 100, corner: t.corner || 4.5, side: t.side || 5 });
  const settle = (t, [x, y]) => {
    const s = size(t), half = s.long / 4 - RADIUS;
    return [Math.min(Math.max(x, -half), half), Math.min(Math.max(y, RADIUS), s.long - RADIUS)];
  };
  const mouthOf = (t, pocket) => {
    const s = size(t), sign = pocket.endsWith("left") ? -1 : 1;
    const x = (sign * s.long) / 4, foot = pocket.startsWith("foot"), r = Math.SQRT1_2;
    let first, second, inward;
    if (isSide(pocket)) {
      [first, second, inward] = [[x, s.long / 2 - s.side / 2], [x, s.long / 2 + s.side / 2], [sign, 0]];
    } else {
      const along = s.corner / Math.SQRT2, y = foot ? s.long : 0;
      [first, second, inward] = [[x - sign * along, y], [x, foot ? y - along : along], [sign * r, foot ? r : -r]];
    }
    return { pocket, first, second, middle: [(first[0] + second[0]) / 2, (first[1] + second[1]) / 2], inward };
  };
  const turning = (t, rail) => {
    const s = size(t);
    return {
      "head-rail": { at: [0, REACH], out: [0, -1] }, "foot-rail": { at: [0, s.long - REACH], out: [0, 1] },
      "left-rail": { at: [REACH - s.long / 4, s.long / 2], out: [-1, 0] },
      "right-rail": { at: [s.long / 4 - REACH, s.long / 2], out: [1, 0] },
    }[rail];
  };
  const image = (t, p, rail) => {
    const { at, out } = turning(t, rail);
    return moved(p, out, 2 * dot(way(p, at), out));
  };
  const mouthImage = (t, m, rail) => {
    const { out } = turning(t, rail), p = (q) => image(t, q, rail);
    return { ...m, first: p(m.first), second: p(m.second), middle: p(m.middle), inward: moved(m.inward, out, -2 * dot(m.inward, out)) };
  };
  const roomAt = (pocket, degrees) => {
    const rooms = isSide(pocket) ? SIDE_ROOMS : CORNER_ROOMS;
    if (degrees <= rooms[0][0]) return rooms[0][1];
    for (let i = 1; i < rooms.length; i++) {
      const [a, low] = rooms[i - 1], [b, high] = rooms[i];
      if (degrees <= b) return low + ((degrees - a) / (b - a)) * (high - low);
    }
    return rooms[rooms.length - 1][1];
  };

  // Spans of directions: lists of [low, high] in rising order.
  const remove = (spans, [low, high]) => {
    if (!(low < high)) return spans;
    const left = [];
    for (const [a, b] of spans) {
      if (a < Math.min(b, low)) left.push([a, Math.min(b, low)]);
      if (Math.max(a, high) < b) left.push([Math.max(a, high), b]);
    }
    return left;
  };
  const common = (s, t) => s.flatMap(([a, b]) => t.map(([c, d]) => [Math.max(a, c), Math.min(b, d)])).filter(([a, b]) => a < b);
  const total = (spans) => spans.reduce((sum, [a, b]) => sum + b - a, 0);
  const widest = (spans) => spans.reduce((best, s) => (s[1] - s[0] > best[1] - best[0] ? s : best), [0, 0]);

  // The share of a normal error within a width around its mean (Abramowitz and
  // Stegun 7.1.5 and 7.1.14: series near nought, continued fraction beyond).
  const erf = (x) => {
    if (x > 6) return 1;
    if (x < 2.5) {
      let sum = x, term = x;
      for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum) && n < 200; n++) {
        term *= (-x * x) / n;
        sum += term / (2 * n + 1);
      }
      return (2 / Math.sqrt(Math.PI)) * sum;
    }
    let f = x;
    for (let n = 60; n > 0; n--) f = x + n / 2 / f;
    return 1 - Math.exp(-x * x) / Math.sqrt(Math.PI) / f;
  };
  const share = (width, sd) => (width > 0 ? erf(width / (2 * Math.SQRT2 * sd)) : 0);

  // Directions into a mouth.
  const firstIsLeft = (m) => cross(m.inward, way(m.middle, m.first)) > 0;
  const mouthSpan = (on, m) => {
    const toMiddle = way(on, m.middle);
    if (dot(toMiddle, m.inward) <= 0) return { line: m.inward, span: [-HANGING, HANGING] };
    const line = unit(toMiddle), square = angle(m.inward, line);
    const edge = (tip, hand) => {
      const v = way(on, tip), turn = hand * angle(line, v);
      let out = turn;
      for (let i = 0; i < 2; i++) {
        const room = roomAt(m.pocket, (-(hand * square + out) * 180) / Math.PI);
        out = turn - Math.asin(Math.min(1, room / length(v)));
      }
      return out;
    };
    const [left, right] = firstIsLeft(m) ? [m.first, m.second] : [m.second, m.first];
    return { line, span: [-edge(right, -1), edge(left, 1)] };
  };
  const brushed = (t, on, m, line, [low, high]) => {
    if (isSide(m.pocket) || high >= HANGING) return [low, high];
    const end = m.pocket.startsWith("foot") ? "foot-rail" : "head-rail";
    const side = m.pocket.endsWith("left") ? "left-rail" : "right-rail";
    const edge = (rail, far, hand) => {
      const { at, out } = turning(t, rail), toward = without(m.inward, out);
      const deep = dot(way(far, at), out), room = Math.max(deep - roomAt(m.pocket, -45), 0);
      const beyond = moved(far, out, deep + room / BRUSH_KEPT);
      return Math.min(hand * angle(line, turned(toward, hand * BRUSH)), hand * angle(line, way(on, beyond)));
    };
    const [left, right, leftFar, rightFar] = firstIsLeft(m) ? [end, side, m.second, m.first] : [side, end, m.first, m.second];
    return [Math.min(low, -edge(right, rightFar, -1)), Math.max(high, edge(left, leftFar, 1))];
  };

  // Balls in the way.
  const shadow = (from, line, at) => {
    const v = way(from, at), apart = Math.max(length(v), BALL), turn = angle(line, v), half = Math.asin(BALL / apart);
    return { low: turn - half, high: turn + half, apart, turn };
  };
  const reach = (apart, turn, direction) => {
    const a = direction - turn;
    return apart * Math.cos(a) - root(BALL * BALL - (apart * Math.sin(a)) ** 2);
  };
  const removeBefore = (spans, cue, line, at, on) => {
    if (!spans.length) return spans;
    const s = shadow(cue, line, at), v = way(at, on), middle = moved(at, v, 0.5);
    const low = Math.max(s.low, spans[0][0]), high = Math.min(s.high, spans[spans.length - 1][1]);
    const across = unit([-v[1], v[0]]), half = root(BALL * BALL - dot(v, v) / 4), apart = Math.max(length(way(cue, on)), BALL);
    const turns = [half, -half].map((h) => angle(line, way(cue, moved(middle, across, h)))).sort((a, b) => a - b);
    const [a, b] = turns.map((x) => Math.min(Math.max(x, low), high));
    for (const [p, q] of [[low, a], [a, b], [b, high]]) {
      const d = (p + q) / 2;
      if (p < q && reach(s.apart, s.turn, d) < reach(apart, 0, d)) spans = remove(spans, [p, q]);
    }
    return spans;
  };

  // A shot laid out straight: a bank's pocket or a kick's cue ball is an image.
  const cueTurn = (object, apart) => -Math.atan2(BALL * Math.sin(object), apart - BALL * Math.cos(object));
  const objectTurn = (cue, apart) => cue - Math.asin(Math.min(Math.max((apart * Math.sin(cue)) / BALL, -1), 1));
  const cueSpans = (spans, turn, apart) => spans.map(([a, b]) => [cueTurn(b + turn, apart), cueTurn(a + turn, apart)]).reverse();
  const behindRail = (t, rail, from, to) => {
    const { at, out } = turning(t, rail);
    const before = Math.abs(dot(way(from, at), out)), after = Math.abs(dot(way(at, to), out));
    return after / (before + after);
  };
  const removeGaps = (l, spans, from, line) => {
    const { at, out } = turning(l.t, l.rail);
    for (const pocket of RAILS[l.rail]) {
      const m = mouthOf(l.t, pocket);
      const [one, two] = [m.first, m.second].map((tip) => way(from, moved(tip, out, dot(way(tip, at), out))));
      let ends = [angle(line, one), angle(line, two)];
      if (!isSide(pocket)) {
        const tip = out[1] === 0 ? two : one, a = angle(line, tip);
        ends = [a, a + (cross(tip, without(m.inward, out)) < 0 ? -Math.PI : Math.PI)];
      }
      spans = remove(spans, [Math.min(...ends), Math.max(...ends)]);
    }
    return spans;
  };
  const chanceIn = (l, [low, high], apart) => {
    const width = high - low, sd = (l.accuracy * Math.PI) / 180;
    if (width <= 0) return 0;
    if (l.way === "bank") {
      const object = objectTurn(low, apart) - objectTurn(high, apart);
      return share(1, Math.hypot(sd / width, (behindRail(l.t, l.rail, l.on, l.mouth.middle) * REBOUND) / object));
    }
    if (l.way === "kick") return share(width, Math.hypot(sd, behindRail(l.t, l.rail, l.cue, l.on) * REBOUND));
    return share(width, sd);
  };
  const aim = (l) => {
    let { line, span } = mouthSpan(l.on, l.mouth);
    if (l.way === "direct") span = brushed(l.t, l.on, l.mouth, line, /** @type {[number, number]} */ (span));
    const cueLine = unit(way(l.cue, l.on)), apart = Math.max(length(way(l.cue, l.on)), BALL * (1 + 1e-9)), turn = angle(cueLine, line);
    const steepest = STEEPEST - Math.asin((BALL * Math.sin(STEEPEST)) / apart);
    let left = common([span], [[-steepest - turn, steepest - turn]]);
    for (const rail of Object.keys(RAILS)) {
      const { at, out } = turning(l.t, rail), near = dot(way(l.on, at), out);
      if (near >= BALL) continue;
      const half = Math.acos(Math.max(near, 0) / BALL), away = angle(line, [-out[0], -out[1]]);
      left = remove(left, [away - half, away + half]);
    }
    let possible = cueSpans(left, turn, apart);
    if (l.way !== "direct") {
      if (chanceIn(l, widest(possible), apart) < FAINTEST) return null;
      if (l.way === "bank") left = removeGaps(l, left, l.on, line);
      else possible = removeGaps(l, possible, l.cue, cueLine);
      possible = common(cueSpans(left, turn, apart), possible);
    }
    if (!possible.length) return null;
    const blocked = new Set();
    const take = (ball, before, after) => {
      if (total(after) < total(before)) blocked.add(ball);
      return after;
    };
    for (const b of l.onWay) {
      const s = shadow(l.on, line, b.at);
      left = take(b.ball, left, remove(left, [s.low, s.high]));
    }
    let free = blocked.size ? common(cueSpans(left, turn, apart), possible) : possible;
    for (const b of l.onCue) free = take(b.ball, free, removeBefore(free, l.cue, cueLine, b.at, l.on));
    const window = widest(free), [a, b] = window[1] > window[0] ? window : widest(possible);
    const object = turned(cueLine, objectTurn((a + b) / 2, apart)), ghost = moved(l.on, object, -BALL);
    const toGhost = way(l.cue, ghost), before = length(toGhost) > 1e-6 && dot(toGhost, object) > 0;
    return {
      pocket: l.mouth.pocket, way: l.way, rail: l.rail || "", ghost, chance: chanceIn(l, window, apart),
      cut: (Math.abs(angle(before ? toGhost : cueLine, object)) * 180) / Math.PI, blocked,
    };
  };
  const worthwhile = (cue, on, mouth) => {
    const a = way(cue, on), b = way(on, mouth), along = dot(a, b);
    return along > 0 && along * along > 0.07 * dot(a, a) * dot(b, b);
  };
  const hopeless = (t, cue, rail, on, m) => {
    const away = length(way(on, m.middle)), apart = length(way(cue, on));
    if (away < 2 * BALL || apart < 2 * BALL) return false;
    const most = ((length(way(m.first, m.second)) / (away - BALL)) * BALL) / (apart - BALL);
    return most < FAINTEST * 2.5 * behindRail(t, rail, cue, on) * REBOUND;
  };

  // What is broken from the right is looked at as its mirror: pockets and rails in
  // the order of the other side, so that of equal shots the mirrored one is first.
  const otherSide = (name) => name.replace(/left|right/, (side) => (side === "left" ? "right" : "left"));
  const needsMirror = (cue, placed) => ([cue, ...placed.map((b) => b.at)].find((p) => p[0] !== 0) || [0])[0] > 0;

  // The shots on one ball, likeliest first.
  const shotsOn = (t, cue, target, placed, accuracy) => {
    const on = target.at, others = placed.filter((b) => b.ball !== target.ball), found = [];
    const inOrder = (names) => (needsMirror(cue, placed) ? names.map(otherSide) : names);
    const pockets = inOrder(POCKETS);
    const add = (lane, least) => {
      const shot = aim({ t, cue, on, accuracy, onWay: others, onCue: others, ...lane });
      if (shot && shot.chance >= least) found.push(shot);
    };
    for (const p of pockets) add({ mouth: mouthOf(t, p), way: "direct" }, 0);
    for (const rail of inOrder(Object.keys(RAILS))) {
      const both = others.concat(others.map((b) => ({ ball: b.ball, at: image(t, b.at, rail) })));
      const cueImage = image(t, cue, rail);
      const { at, out } = turning(t, rail), frozen = (p) => dot(way(p, at), out) < RADIUS - REACH + 0.01;
      for (const p of pockets.filter((q) => !RAILS[rail].includes(q) && !frozen(on))) {
        const mouth = mouthImage(t, mouthOf(t, p), rail);
        if (worthwhile(cue, on, mouth.middle)) add({ mouth, way: "bank", rail, onWay: both }, FAINTEST);
      }
      if (frozen(cue)) continue;
      for (const p of pockets) {
        const mouth = mouthOf(t, p), onCue = both.concat({ ball: target.ball, at: image(t, on, rail) });
        if (worthwhile(cueImage, on, mouth.middle) && !hopeless(t, cueImage, rail, on, mouth)) {
          add({ mouth, way: "kick", rail, cue: cueImage, onCue }, FAINTEST);
        }
      }
    }
    for (const s of found) s.blockedBy = [...s.blocked].filter((b) => b !== target.ball).sort((a, b) => a - b);
    return found.sort((a, b) => b.chance - a.chance || Number(b.way === "direct") - Number(a.way === "direct"));
  };
  const judge = (shots) => {
    if (shots.some((s) => s.way === "direct" && s.chance >= OPEN_LINE)) return "open";
    return shots.some((s) => s.chance >= bw.hardLine) ? "hard" : "none";
  };

  // chanceWords says how often of ten a shot goes in; what is under the line of an open
  // shot is under it in words.
  bw.chanceWords = (chance) => {
    const tenths = Math.round(chance * 10);
    if (tenths < 1) return "less than once in ten";
    if (tenths > 9) return "nearly every time";
    return `${chance < OPEN_LINE && tenths >= OPEN_LINE * 10 ? "just under" : "about"} ${tenths} of 10`;
  };

  // findShots answers for a leave: table {feet, small, corner, side}, game, cue [x, y] at
  // rest, placed [{ball, at}], unplaced [balls], accuracy in degrees. shot is open,
  // hard, none, or "" when the ball to be shot at was not placed.
  bw.findShots = ({ table, game, cue, placed, unplaced = [], accuracy = bw.levels.club }) => {
    const lie = placed.map((b) => ({ ball: b.ball, at: settle(table, b.at) })).sort((a, b) => a.ball - b.ball);
    const numbers = lie.map((b) => b.ball).concat(unplaced).sort((a, b) => a - b);
    const targets = game === "eight-ball" ? numbers.filter((n) => n !== 8) : numbers.slice(0, 1);
    let /** @type {ReturnType<Bw["findShots"]>} */ best = { ball: 0, shot: "", certain: false, shots: [] };
    targets.forEach((ball, i) => {
      const target = lie.find((b) => b.ball === ball);
      const shots = target ? shotsOn(table, settle(table, cue), target, lie, accuracy) : [];
      const shot = target ? judge(shots) : "";
      const better = Boolean(shot) !== Boolean(best.shot) ? Boolean(shot) : (shots[0]?.chance || 0) > (best.shots[0]?.chance || 0);
      if (i > 0 && !better) return;
      best = { ball, shot, shots, certain: Boolean(shot) && (!unplaced.length || (shot === "none" && game !== "eight-ball")) };
    });
    return best;
  };
})();
