// The balls of the rack change places: one is dragged onto another, or both are pressed
// one after the other. Where the seats name the field of the order (data-order), it is
// written here; else each seat is a button that the server hears.
{
  /** @typedef {{ seat: PageElement, seats: PageElement, group: PageElement, home: string, x: number, y: number, moved: boolean }} BallInHand */
  let /** @type {BallInHand | null} */ ball = null;

  document.addEventListener("pointerdown", (event) => {
    const seat = event.button === 0 && /** @type {Element} */ (event.target).closest(".seat");
    if (!seat || seat.hasAttribute("data-fixed")) return;
    const seats = seat.closest(".seats");
    const group = seats.querySelector(`.pic-slot[data-slot="${seat.value}"]`);
    ball = { seat, seats, group, home: group.getAttribute("transform") ?? "", x: event.clientX, y: event.clientY, moved: false };
  });

  /** @param {BallInHand} ball */
  function seatUnder(event, ball) {
    const seat = document.elementFromPoint(event.clientX, event.clientY)?.closest(".seat");
    return seat && seat !== ball.seat && ball.seats.contains(seat) ? seat : null;
  }

  function unmark(seats) {
    for (const seat of seats.querySelectorAll(".seat.under")) seat.classList.remove("under");
  }

  /** @param {BallInHand} ball */
  function moveBall(event, ball) {
    const dx = event.clientX - ball.x, dy = event.clientY - ball.y;
    if (!ball.moved && Math.hypot(dx, dy) < 6) return;
    if (!ball.moved) ball.group.parentNode.append(ball.group); // over the other balls
    ball.moved = true;
    const perPixel = 1 / ball.group.ownerSVGElement.getScreenCTM().a;
    ball.group.setAttribute("transform", `translate(${dx * perPixel} ${dy * perPixel}) ${ball.home}`);
    unmark(ball.seats);
    seatUnder(event, ball)?.classList.add("under");
  }

  /** @param {BallInHand} held */
  function dropBall(event, held) {
    const to = event.type === "pointerup" ? seatUnder(event, held) : null;
    const { seat, seats, group, home, moved } = held;
    unmark(seats);
    ball = null;
    if (!moved) return;
    // The click that may follow on the ball's own button is part of the drag.
    const swallow = (click) => { click.preventDefault(); click.stopPropagation(); };
    seat.addEventListener("click", swallow, { capture: true, once: true });
    setTimeout(() => seat.removeEventListener("click", swallow, { capture: true }), 0);
    if (!to || to.hasAttribute("data-fixed")) group.setAttribute("transform", home);
    if (!to) return;
    if (seats.dataset.order) return swapBalls(seat, to);
    seats.parentElement.querySelector("[name=picked]").value = seat.value;
    to.click();
  }

  document.addEventListener("pointermove", (event) => { if (ball) moveBall(event, ball); });
  for (const end of ["pointerup", "pointercancel"]) {
    document.addEventListener(end, (event) => { if (ball) dropBall(event, ball); });
  }

  /** Writes the order with two balls exchanged. */
  function swapBalls(from, to) {
    if (from.hasAttribute("data-fixed") || to.hasAttribute("data-fixed")) return;
    const seats = from.closest(".seats");
    [from.dataset.ball, to.dataset.ball] = [to.dataset.ball, from.dataset.ball];
    const field = seats.closest("form").querySelector(`[name="${seats.dataset.order}"]`);
    field.value = [...seats.querySelectorAll(".seat")].map((seat) => seat.dataset.ball).join("-");
    for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
  }

  document.addEventListener("click", (event) => {
    const seat = /** @type {Element} */ (event.target).closest(".seats[data-order] .seat");
    if (!seat || seat.hasAttribute("data-fixed")) return;
    const before = seat.closest(".seats").querySelector("[aria-pressed=true]");
    if (before) before.setAttribute("aria-pressed", "false");
    if (before && before !== seat) swapBalls(before, seat);
    else if (!before) seat.setAttribute("aria-pressed", "true");
  });
}
