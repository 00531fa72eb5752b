// A setup changed in its pictures: what can be moved gets a handle over it, for
// finger, mouse and arrow keys. A handle writes form fields, and follows them;
// what the server knows of it stands in data-handles. Without this script the
// fields do the same.
{
  /** @typedef {{ fields?: string[], origin: number, unit: number, moves?: boolean, min: number, max: number, step: number, below?: string, above?: string, ball?: number }} Axis */
  /** @typedef {{ label: string, mark?: string, x: Axis, y: Axis }} Handle */

  const byName = (name) => document.querySelector(`.drawn [name="${name}"]`);
  const between = (v, low, high) => Math.min(Math.max(v, low), high);
  /** The one field of an axis that moves. @param {Axis} axis */
  const fieldOf = (axis) => axis.fields?.[0] ?? "";
  const typedIn = (name) => Number(byName(name).value.replace(",", ".").replace("−", "-"));

  /** Where an axis stands in the picture's own units. @param {Axis} axis */
  function position(axis) {
    if (!axis.fields) return axis.origin;
    const values = axis.fields.map(typedIn).map((v) => (Number.isFinite(v) ? v : 0));
    const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
    return axis.origin + axis.unit * (axis.moves ? between(mean, axis.min, axis.max) : mean);
  }

  /** Writes a value into an axis's field; true when that changed it. @param {Axis} axis */
  function write(axis, v) {
    if (!axis.moves || !Number.isFinite(v)) return false;
    const high = axis.below ? Math.min(axis.max, typedIn(axis.below) - (axis.ball ?? 0)) : axis.max;
    const low = axis.above ? Math.max(axis.min, typedIn(axis.above) + (axis.ball ?? 0)) : axis.min;
    const field = byName(fieldOf(axis));
    const value = String(Number(between(Math.round(v / axis.step) * axis.step, low, high).toFixed(2)));
    if (field.value === value) return false;
    field.value = value;
    field.dispatchEvent(new CustomEvent("input", { bubbles: true, detail: { drawn: true } }));
    return true;
  }

  /** Tells those who wait for a finished change. @param {Handle} handle */
  function finish(handle) {
    const axis = handle.x.moves ? handle.x : handle.y;
    byName(fieldOf(axis)).dispatchEvent(new Event("change", { bubbles: true }));
  }

  const drawingOf = (figure) => figure.querySelector("svg > title").ownerSVGElement;
  /** @returns {Handle[]} */
  const handlesOf = (figure) => JSON.parse(figure.dataset.handles);

  // Each handle's button lies over its picture, beside the part that the server renews.
  function place() {
    for (const figure of document.querySelectorAll(".drawn [data-handles]")) {
      const frame = /** @type {HTMLElement} */ (figure.parentElement), svg = drawingOf(figure);
      handlesOf(figure).forEach((handle, i) => {
        let button = /** @type {HTMLElement} */ (frame.querySelector(`:scope > .handle[data-at="${i}"]`));
        if (!button) {
          button = document.createElement("button");
          button.setAttribute("type", "button");
          button.className = "handle";
          button.dataset.at = String(i);
          if (!handle.x.moves || !handle.y.moves) button.classList.add("edge");
          frame.append(button);
        }
        const x = position(handle.x), y = position(handle.y);
        const at = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM()), within = frame.getBoundingClientRect();
        button.style.left = `${at.x - within.left}px`;
        button.style.top = `${at.y - within.top}px`;
        const places = [handle.x, handle.y].filter((axis) => axis.moves).map((axis) => byName(fieldOf(axis)).value);
        button.setAttribute("aria-label", `${handle.label}, ${places.join(" and ")}: move with the arrow keys`);
        if (!handle.mark) return;
        for (const mark of svg.querySelectorAll(handle.mark)) {
          mark.setAttribute("cx", String(x));
          mark.setAttribute("cy", String(y));
        }
      });
    }
  }

  let /** @type {HTMLElement | null} */ held = null; // the button in hand
  const figureOf = (button) => /** @type {HTMLElement} */ (button.parentElement.querySelector("[data-handles]"));

  document.addEventListener("pointerdown", (event) => {
    const button = event.button === 0 && /** @type {Element} */ (event.target).closest(".drawn .handle");
    if (!button) return;
    event.preventDefault();
    button.focus({ preventScroll: true });
    button.classList.add("held");
    button.closest(".drawn").classList.add("moving");
    held = button;
  });
  document.addEventListener("pointermove", (event) => {
    if (!held) return;
    const figure = figureOf(held), handle = handlesOf(figure)[Number(held.dataset.at)], svg = drawingOf(figure);
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    const across = write(handle.x, (x - handle.x.origin) / handle.x.unit);
    if (write(handle.y, (y - handle.y.origin) / handle.y.unit) || across) place();
  });
  for (const end of ["pointerup", "pointercancel"]) {
    document.addEventListener(end, () => {
      if (!held) return;
      held.classList.remove("held");
      held.closest(".drawn").classList.remove("moving");
      const handle = handlesOf(figureOf(held))[Number(held.dataset.at)];
      held = null;
      finish(handle);
    });
  }
  document.addEventListener("keydown", (event) => {
    const button = /** @type {Element} */ (event.target).closest?.(".drawn .handle");
    const way = { ArrowLeft: ["x", -1], ArrowRight: ["x", 1], ArrowUp: ["y", -1], ArrowDown: ["y", 1] }[event.key];
    if (!button || !way) return;
    event.preventDefault();
    const handle = handlesOf(figureOf(button))[Number(button.dataset.at)];
    const axis = /** @type {Axis} */ (handle[way[0]]);
    if (!axis.moves) return;
    const steps = Number(way[1]) * Math.sign(axis.unit) * (event.shiftKey ? 4 : 1);
    if (write(axis, typedIn(fieldOf(axis)) + steps * axis.step)) {
      place();
      finish(handle);
    }
  });

  document.addEventListener("input", (event) => { if (/** @type {Element} */ (event.target).closest?.(".drawn")) place(); });
  document.addEventListener("htmx:afterSettle", place);
  document.addEventListener("htmx:oobAfterSwap", place);
  addEventListener("resize", place);
  document.documentElement.classList.add("scripted");
  place();
}
