// The drill editor's hands: sliders and number fields follow each other, and the
// pictures follow both; what is moved in the pictures is drawn.js's and rack.js's.
// Without this script every change is a button away.
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
  const field = /** @type {PageElement} */ (event.target);
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
  if (!(/** @type {Element} */ (event.target).closest("button"))) return;
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
