// One break being entered: taps become an entry, and the line above the button
// says what it is before it is saved. The draft is {id, edit, entry, past};
// past are the entries before each tap, so that each can be undone.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  /** @type {Parameters<Bw["entry"]["start"]>[0]} */
  let ui; // from record-table.js
  let svg, ball = 0, facing = "wing", hint = "", /** @type {Meant | null} */ near = null;
  const leftOpen = new Set(); // questions that stay unanswered
  const plan = () => ui.set().plan;
  // isOther reports whether a ball is one of the other balls, as the wing ball is in a
  // break that does not watch it.
  const isWatched = () => entry.draft.entry.wing !== "not-watched";
  const isOther = (n) => n !== plan().wing || !isWatched();
  const press = (button, on) => button.setAttribute("aria-pressed", String(Boolean(on)));

  const entry = (bw.entry = /** @type {Bw["entry"]} */ (/** @type {unknown} */ ({ draft: null })));
  entry.fresh = () => ({ id: bw.newID(), edit: false, entry: bw.emptyEntry(ui.set().ask), past: [] });
  // take goes on with a draft, or begins a new one.
  entry.take = (draft) => {
    entry.draft = draft || entry.fresh();
    ball = 0;
    near = null;
    hint = "";
    facing = "wing";
    leftOpen.clear();
  };
  // adopt gives way to another tab that has saved this draft as a break: what
  // was not touched here, or says the same, goes; the rest is one more break.
  entry.adopt = (breaks) => {
    const { draft } = entry;
    const there = !draft.edit && breaks.find((b) => b.id === draft.id && b.deleted === undefined);
    if (!there) return "";
    const same = !draft.own || (!entry.missing() && bw.sameTaps(there.content, bw.contentOf(draft.entry, plan(), there.number, "")));
    if (same) entry.take();
    else draft.id = bw.newID();
    return same ? `Break ${there.number} was saved in another tab.` : `Break ${there.number} was saved in another tab; what you tapped here is one more.`;
  };
  entry.touched = () => entry.draft.past.length > 0;
  const keep = () => bw.keepDraft(ui.set().id, entry.draft).catch(() => {}); // what must be kept is the break itself

  // missing says what is still to be tapped, or "".
  entry.missing = () => {
    const { wing, balls, cue } = entry.draft.entry;
    if (near) return `Near ${bw.pocketWords(near.near ?? "")}: in it, or beside it?`;
    if (!wing && !cue) return `Tap what the ${plan().wing} did, and where the cue ball stopped.`;
    if (!wing) return `Tap what the wing ball, the ${plan().wing}, did.`;
    if (wing === "else" && !balls[plan().wing]) return `Tap the pocket the ${plan().wing} went in, or “Off the table”.`;
    if (!cue) return "Tap where the cue ball stopped, or “Scratch”.";
    return "";
  };

  // change does one thing to the entry.
  /** @param {(e: Entry) => void} with_ */
  const change = (with_) => {
    const { draft } = entry;
    draft.past.push(structuredClone(draft.entry));
    hint = "";
    with_(draft.entry);
    bw.leaveStep.fill(draft.entry, plan());
    const offered = bw.leaveStep.isOffered(draft.entry, plan()) && !entry.missing();
    if (facing !== "balls") facing = offered ? "leave" : "wing";
    draft.own = true; // touched in this tab
    keep();
    ui.changed();
  };
  entry.undo = () => {
    hint = "";
    if (near) near = null;
    else entry.draft.entry = entry.draft.past.pop() ?? entry.draft.entry;
    ball = 0;
    leftOpen.clear();
    if (entry.missing()) facing = "wing";
    keep();
    ui.changed();
  };
  const wing = (value) => change((e) => {
    leftOpen.delete("cue_path");
    e.wing = value;
    const fate = e.balls[plan().wing];
    if (fate && (value === "else" || value === "made" || !("x" in fate))) delete e.balls[plan().wing];
  });
  // aimed is the ball that a tap on the picture is about: the one that was chosen,
  // a wing ball that went elsewhere, the next of the lowest; 0 for the cue ball.
  const aimed = (e = entry.draft.entry) => ball || (e.wing === "else" && !e.balls[plan().wing] ? plan().wing : 0) || (facing === "leave" && !question() ? bw.leaveStep.next(e, plan()) : 0);
  // touch takes a tap on the picture: near a pocket it asks, beside the table it
  // says what to press.
  /** @param {Meant} m */
  const touch = (m) => {
    if (m.near) {
      near = m;
      ui.changed();
      $("near-in").focus({ preventScroll: true });
    } else if (m.pocket || "x" in m) mean(m);
    else {
      hint = "Beside the table: press “Off the table” if it left it.";
      ui.changed();
    }
  };
  // mean takes what was meant for the ball that is aimed at.
  /** @param {Fate} m */
  const mean = (m) => change((e) => {
    const other = aimed(e);
    ball = 0;
    near = null;
    if (facing === "pockets") facing = other && isOther(other) ? "balls" : "wing";
    if (other) e.balls[other] = m;
    else e.cue = m.pocket ? { how: "scratch", pocket: m.pocket } : m.off ? { how: "off-table" } : { how: "stopped", ...m };
  });

  const say = (words, ready) => {
    if ($("summary").textContent !== words) $("summary").textContent = words;
    $("summary").classList.toggle("ready", Boolean(ready));
  };
  // fold shows a few lines of what is said; a tap opens the rest, until something else is
  // said. An open line keeps its height meanwhile, so that nothing moves under a thumb
  // that is on the picture.
  let opened = "";
  const fold = () => {
    const line = $("summary");
    if (line.textContent !== opened) opened = "";
    line.style.minHeight = "";
    line.classList.toggle("open", Boolean(opened));
    line.classList.remove("long");
    line.classList.toggle("long", Boolean(opened) || line.scrollHeight > line.clientHeight + 1);
    if (opened) line.style.minHeight = `${line.scrollHeight}px`;
  };
  const unfold = () => {
    if ($("summary").classList.contains("long")) opened = opened ? "" : $("summary").textContent;
    fold();
    if (opened) $("save").scrollIntoView({ block: "end" });
  };
  entry.say = (words, ready) => {
    say(words, ready);
    fold();
  };
  // nudge says again what is missing, for who presses the button too early.
  entry.nudge = () => {
    entry.say(entry.missing());
    $("summary").classList.remove("nudge");
    void $("summary").offsetWidth; // so that it moves again
    $("summary").classList.add("nudge");
  };

  const marks = ({ cue, balls }) => {
    const list = Object.entries(balls).map(([n, fate]) => ({ ...fate, label: n, ball: true }));
    if (cue) list.push(cue.how === "stopped" ? { x: cue.x, y: cue.y } : cue.how === "scratch" ? { pocket: cue.pocket } : { off: true });
    return list;
  };
  // show brings the page to what was entered; the notice is shown while nothing is.
  entry.show = (notice) => {
    const { draft } = entry, { wing: w, cue, balls } = draft.entry, n = ui.number(), other = aimed(draft.entry);
    for (const b of document.querySelectorAll("[data-wing]")) press(b, w === b.dataset.wing || (w === "up" && b.dataset.wing === "unknown"));
    press($("scratch"), cue?.how === "scratch");
    press($("off-table"), cue?.how === "off-table");
    const others = Object.keys(balls).filter((b) => isOther(Number(b)));
    $("open-balls").textContent = others.length ? `Other balls: ${others.join(", ")}` : "Other balls…";
    const words = entry.missing();
    entry.say(near ? words : hint ? hint : words ? (notice || (question() ? "Look at the rack before you break." : words)) : bw.allWords(JSON.parse(bw.contentOf(draft.entry, plan(), n)), plan()), !words);
    $("save").textContent = draft.edit ? "Save the change" : `Save break ${n}`;
    $("save").classList.toggle("not-yet", Boolean(words));
    $("leave-edit").hidden = $("not-counted").hidden = !draft.edit;
    const where = cue?.how === "stopped" ? `: ${bw.zone(cue, plan())}` : "";
    $("cloth-name").textContent = other ? `Where the ${other} went` : `Where the cue ball stopped${where}. The arrow keys move it, too.`;
    $("cloth").classList.toggle("aim-ball", other > 0);
    bw.leaveStep.show(draft.entry, plan(), other);
    showBalls();
    bw.marks(svg, plan(), marks(draft.entry), 1.6);
    bw.details.show();
  };

  const fateWords = (fate) => (!fate ? "up" : fate.pocket ? bw.pocketWords(fate.pocket) : fate.off ? "off the table" : bw.zone(fate, plan()));
  const isBare = () => !entry.touched() && !(isWatched() && entry.draft.entry.wing) && !entry.draft.entry.cue;
  // asksRack: before the first break of a set, and before each where the advice
  // wants the rack checked; again with the break known, when it was passed over.
  const asksRack = (e, ask) => !entry.draft.edit && !e.racked && (ask.rack || !bw.live(ui.set().breaks).length) && (isBare() || !entry.missing());
  // question is what is asked where the answer changes what is said: the rack
  // and, once the break is known, the drill's own and, when the cue ball ended at
  // the foot end under draw, how it came there (as needsCuePath in package advice).
  const question = () => {
    /** @type {Partial<WatchList>} */
    const ask = ui.set().ask || {};
    const e = entry.draft.entry, { cue } = e;
    if (asksRack(e, ask) && !leftOpen.has("racked")) return "racked";
    if (leftOpen.has("cue_path") || entry.missing() || cue?.how !== "stopped") return "";
    const drawn = plan().setup.tip <= -0.15 && (cue.y ?? 0) > plan().window[3];
    return !e.cue_path && (ask.path || drawn) && !bw.inWindow({ cue }, plan()) ? "cue_path" : "";
  };
  const panels = ["wing", "balls", "pockets", "near", "leave", "ask-racked", "ask-cue_path"];
  const showBalls = () => {
    const ask = facing !== "balls" && facing !== "pockets" && question();
    const shown = near ? "near" : ask ? `ask-${ask}` : facing;
    for (const panel of panels) $(panel).hidden = panel !== shown;
    const seen = ui.set().ask?.wing !== false || ["side-rail", "foot-rail", "kissed", "jaws"].includes(entry.draft.entry.wing);
    const cueOnly = Boolean(ui.set().ask?.cue_only) && !isWatched();
    $("wing").classList.toggle("only-up", !seen);
    $("wing").classList.toggle("only-cue", cueOnly);
    $("wing-name").textContent = cueOnly ? "Only the cue ball counts" : `Wing ball: the ${plan().wing}`;
    $("wing-up").textContent = seen ? "Up, not seen" : "Stayed up";
    $("pockets-name").textContent = aimed() ? `Where did the ${aimed()} go?` : "Scratch: where?";
    if (near) $("near-name").textContent = bw.capital(bw.pocketWords(near.near ?? ""));
    $("balls-name").textContent = ball ? `Tap where the ${ball} went` : "Which ball?";
    for (const key of $("ball-keys").querySelectorAll("button")) {
      const n = Number(key.dataset.ball), fate = entry.draft.entry.balls[n];
      key.hidden = !isOther(n);
      press(key, ball === n);
      key.classList.toggle("noted", Boolean(fate));
      key.ariaLabel = `The ${n}: ${fateWords(fate)}`;
    }
  };
  // ballKey chooses a ball; pressed again, the ball is as if nothing was said.
  const ballKey = (n) => {
    const key = bw.element("button", { type: "button", className: "chip", textContent: n });
    key.dataset.ball = n;
    key.addEventListener("click", () => {
      const again = ball === n;
      ball = again ? 0 : n;
      if (again && entry.draft.entry.balls[n]) change((e) => { delete e.balls[n]; });
      else ui.changed();
    });
    return key;
  };
  const turn = (to, focus) => {
    facing = to;
    if (to !== "pockets") ball = 0;
    ui.changed();
    focus().focus();
  };

  // begin fits the page to a set.
  entry.begin = (cloth) => {
    svg = bw.table($("picture"), cloth);
    $("wing-made").textContent = `In ${bw.pocketWords(plan().pocket)}`;
    $("ball-keys").replaceChildren(...Array.from({ length: plan().balls }, (_, i) => ballKey(i + 1)));
    bw.details.newPlan();
    if (plan().leave) bw.leaveStep.load();
  };
  entry.start = (host) => {
    ui = host;
    for (const b of document.querySelectorAll("[data-wing]")) b.addEventListener("click", () => wing(b.dataset.wing));
    bw.onTap({
      "off-table": () => mean({ off: true }),
      scratch: () => turn("pockets", () => $("pockets").querySelector("button")),
      "near-in": () => mean({ pocket: near?.near }),
      "near-by": () => mean({ x: near?.x, y: near?.y }),
      "open-balls": () => turn("balls", () => $("ball-keys").firstChild),
      "close-balls": () => turn("wing", () => $("open-balls")),
    });
    for (const b of document.querySelectorAll("[data-pocket-key]")) b.addEventListener("click", () => mean({ pocket: b.dataset.pocketKey }));
    for (const b of document.querySelectorAll("[data-back]")) b.addEventListener("click", () => {
      if (near) near = null;
      else if (facing !== "pockets") leftOpen.add(question());
      if (facing === "pockets") turn("wing", () => $("scratch"));
      else ui.changed();
    });
    bw.leaveStep.start((shot) => change((e) => { e.shot = shot; }), () => turn("wing", () => $("wing").querySelector("button")));
    bw.tap($("cloth"), $("loupe"), {
      svg: () => svg, plan, mean: touch, stop: () => ui.changed(),
      cue: () => (!aimed() && entry.draft.entry.cue?.how === "stopped" ? entry.draft.entry.cue : null),
      look: (m) => say(m.pocket ? bw.capital(bw.pocketWords(m.pocket)) : "x" in m ? bw.capital(bw.zone(m, plan())) : "Beside the table"),
    });
    $("summary").addEventListener("click", unfold);
    addEventListener("resize", fold);
    bw.details.start({ entry: () => entry.draft.entry, plan, isOther, change });
  };
})();
