// The drill editor's hands: the balls of the rack are dragged, sliders and number
// fields follow each other, and the pictures follow both; what else is moved in
// the pictures is drawn.js's. Without this script every change is a button away.
document.documentElement.classList.add("scripted");

const plan = document.getElementById("plan");
const byId = (id) => document.getElementById(id);

// Ask for new pictures a moment after the last change.
let waiting = 0;
function refresh(after) {
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    waiting = 0;
    if (window.htmx) window.htmx.trigger("#updater", "refresh");
  }, after);
}

// The fields changed since the last request was sent, by name.
const since = new Map();

plan.addEventListener("input", (event) => {
  const field = event.target;
  if (field.dataset.mirrors) {
    byId(field.dataset.mirrors).value = String(Number(field.value));
  } else {
    const slider = plan.querySelector(`[data-mirrors="${field.id}"]`);
    if (slider && field.value.trim() !== "") slider.value = field.value.replace(",", ".").replace("−", "-");
  }
  const named = byId(field.dataset.mirrors) ?? field;
  since.set(named.name, named.value);
  if (!(/** @type {any} */ (event.detail)?.drawn)) refresh(field.type === "range" ? 60 : 300);
  else if (!waiting) refresh(60); // while it is moved, at a steady pace
});
// A button sends what was typed itself: an update behind it would be stale.
plan.addEventListener("click", (event) => {
  if (!event.target.closest("button")) return;
  clearTimeout(waiting);
  waiting = 0;
});
// What is typed while an answer is on its way is put into the form that comes.
document.addEventListener("htmx:beforeRequest", () => since.clear());
document.addEventListener("htmx:afterSwap", (event) => {
  if (event.detail.target !== plan || since.size === 0) return;
  for (const [name, value] of since) {
    for (const field of plan.querySelectorAll(`[name="${name}"]`)) {
      if (field.type === "radio") field.checked = field.value === value;
      else field.value = value;
    }
  }
  refresh(0);
});
document.addEventListener("htmx:afterSettle", settle);
document.addEventListener("htmx:oobAfterSwap", settle);

function settle() {
  for (const says of plan.querySelectorAll("[data-about]")) {
    const field = byId(says.dataset.about);
    if (field?.matches("input, textarea")) {
      if (says.textContent) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
  }
}

// The rack: a ball dragged onto another is picked up and put down by the same
// buttons that a click or a key would press.
let ball = null; // { seat, group, home, x, y, moved }

plan.addEventListener("pointerdown", (event) => {
  if (event.button !== 0) return;
  const seat = event.target.closest(".seat");
  if (!seat || seat.hasAttribute("data-fixed")) return;
  const group = plan.querySelector(`.pic-slot[data-slot="${seat.value}"]`);
  ball = { seat, group, home: group.getAttribute("transform"), x: event.clientX, y: event.clientY, moved: false };
});

function seatUnder(event) {
  const seat = document.elementFromPoint(event.clientX, event.clientY)?.closest(".seat");
  return seat && seat !== ball.seat ? seat : null;
}

function moveBall(event) {
  const dx = event.clientX - ball.x, dy = event.clientY - ball.y;
  if (!ball.moved && Math.hypot(dx, dy) < 6) return;
  if (!ball.moved) ball.group.parentNode.append(ball.group); // over the other balls
  ball.moved = true;
  const perPixel = 1 / ball.group.ownerSVGElement.getScreenCTM().a;
  ball.group.setAttribute("transform", `translate(${dx * perPixel} ${dy * perPixel}) ${ball.home}`);
  for (const seat of plan.querySelectorAll(".seat.under")) seat.classList.remove("under");
  seatUnder(event)?.classList.add("under");
}

function dropBall(event) {
  const to = event.type === "pointerup" ? seatUnder(event) : null;
  for (const seat of plan.querySelectorAll(".seat.under")) seat.classList.remove("under");
  const { seat, group, home, moved } = ball;
  ball = null;
  if (!moved) return;
  // The click that may follow on the ball's own button is part of the drag.
  const swallow = (click) => { click.preventDefault(); click.stopPropagation(); };
  seat.addEventListener("click", swallow, { capture: true, once: true });
  setTimeout(() => seat.removeEventListener("click", swallow, { capture: true }), 0);
  if (!to) {
    group.setAttribute("transform", home);
    return;
  }
  plan.querySelector("[name=picked]").value = seat.value;
  to.click();
}

document.addEventListener("pointermove", (event) => { if (ball) moveBall(event); });
for (const end of ["pointerup", "pointercancel"]) {
  document.addEventListener(end, (event) => { if (ball) dropBall(event); });
}
