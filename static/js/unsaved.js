// Leaving asks while what was changed in a form is not saved. The form says so by
// data-unsaved: "yes" when the server gave it back unsaved.
{
  const forms = () => document.querySelector("[data-unsaved]");
  let changed = forms()?.dataset.unsaved === "yes";
  for (const kind of ["input", "change"]) {
    document.addEventListener(kind, (event) => { if (/** @type {Element} */ (event.target).closest?.("[data-unsaved]")) changed = true; });
  }
  document.addEventListener("submit", (event) => { if (/** @type {Element} */ (event.target).closest?.("[data-unsaved]")) changed = false; });
  document.addEventListener("click", (event) => { if (/** @type {Element} */ (event.target).closest?.("[data-leaves]")) changed = false; });
  addEventListener("beforeunload", (event) => { if (changed) event.preventDefault(); });
}
