// Breaks in a list, counted and drawn: the first reading of a set, which needs
// nobody but this phone.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const of = (n, all) => `${n} of ${all}`;
  const ofWatched = (n, watched) => (watched ? of(n, watched) : "not watched");

  // countWords is what is counted first, each beside how many it is of.
  bw.countWords = (breaks, plan) => {
    const c = bw.counts(breaks.map((b) => JSON.parse(b.content)), plan);
    let words = `Wing ball in its corner ${ofWatched(c.wing, c.watched)}. Cue ball in the window ${of(c.window, c.breaks)}. Scratches ${of(c.scratches, c.breaks)}, dry breaks ${ofWatched(c.dry, c.watched)}`;
    if (c.off) words += `, balls off the table in ${of(c.off, c.breaks)}`;
    return `${words}.`;
  };
  /** @param {KeptBreak} b */
  const unsentWords = (b) => (b.wasNumber ? ` Was ${b.wasNumber} here: another phone had that number.` : "") + (b.refused ? " Not with your coach: look at it." : bw.isUnsent(b) ? " On this phone." : b.coach ? " Changed by your coach." : "");

  const part = (name, className, textContent) => bw.element(name, { className, textContent });
  // list shows breaks; with open each is a button that leads to it.
  bw.list = (place, breaks, plan, open) => {
    place.replaceChildren(...breaks.map((b) => {
      const line = document.createElement("li");
      line.value = b.number;
      const number = part("span", "number", b.number);
      const words = part("span", "grow", bw.breakWords(JSON.parse(b.content), plan));
      words.append(part("span", "quiet small", unsentWords(b)));
      if (!open) {
        number.ariaHidden = "true";
        line.append(number, words);
        return line;
      }
      const button = part("button", "line", "");
      button.type = "button";
      button.append(part("span", "unseen", "Change break "), number, words);
      button.addEventListener("click", () => open(b));
      line.append(button);
      return line;
    }));
  };
  // spread draws where the cue ball went, break by break.
  bw.spread = (place, cloth, breaks, plan) => {
    const svg = bw.table(place, cloth, `Where the cue ball went. ${bw.countWords(breaks, plan)}`);
    bw.marks(svg, plan, breaks.map((b) => {
      const { how, x, y, pocket } = JSON.parse(b.content).cue;
      const label = String(b.number);
      if (how === "stopped") return { x, y, label };
      return how === "scratch" ? { pocket, label } : { off: true, label };
    }));
  };
})();
