// A finger, a mouse or the arrow keys on the picture of the table. A quick tap
// on the cloth near a pocket is asked about, as a thumb is wide; held or dragged,
// the finger has the loupe, and only the hole itself is the pocket, so that an
// inch can be told from the next.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const thumbPx = 24, dragPx = 8, holdMs = 180;

  // tap watches place; ui gives svg(), plan(), cue(), and takes look(meant)
  // while the finger is down, mean(meant) when it goes, and stop() when it is
  // taken away.
  bw.tap = (place, loupe, ui) => {
    let start, fine = false, timer;
    const at = (event) => bw.pointOf(ui.svg(), event.clientX, event.clientY);
    const look = (event) => {
      fine = true;
      const meant = bw.meant(ui.svg(), ui.plan(), at(event), 0);
      loupe.hidden = false;
      loupe.classList.toggle("below", event.clientY < place.getBoundingClientRect().top + 200);
      bw.loupe(loupe, ui.svg(), { ...at(event), ...meant });
      ui.look(meant);
    };
    const end = () => {
      clearTimeout(timer);
      start = undefined;
      fine = false;
      loupe.hidden = true;
    };
    place.addEventListener("pointerdown", (event) => {
      if (event.button > 0) return;
      start = event;
      place.setPointerCapture(event.pointerId);
      timer = setTimeout(() => look(event), holdMs);
    });
    place.addEventListener("pointermove", (event) => {
      if (start && (fine || Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) > dragPx)) look(event);
    });
    place.addEventListener("pointerup", (event) => {
      if (!start) return;
      const inchPx = ui.svg().getScreenCTM().a * 10;
      const reach = fine ? 0 : thumbPx / inchPx;
      end();
      ui.mean(bw.meant(ui.svg(), ui.plan(), at(event), reach));
    });
    place.addEventListener("pointercancel", () => { end(); ui.stop(); });
    place.addEventListener("keydown", (event) => byKey(event, ui));
  };

  // byKey moves the cue ball by an inch, with the shift key by a tenth; the
  // first key puts it into the middle of the window.
  const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1], Enter: [0, 0], " ": [0, 0] };
  const byKey = (event, ui) => {
    const way = ways[event.key];
    if (!way) return;
    event.preventDefault();
    const from = ui.cue(), [left, right, head, foot] = ui.plan().window;
    if (!from) ui.mean(bw.onCloth({ x: (left + right) / 2, y: (head + foot) / 2 }, ui.plan()));
    else if (way[0] || way[1]) {
      const by = event.shiftKey ? 0.1 : 1;
      ui.mean(bw.onCloth({ x: from.x + way[0] * by, y: from.y + way[1] * by }, ui.plan()));
    }
  };
})();
