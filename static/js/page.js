// What every page does with a script, and can do without: a form is sent once
// however often its button is pressed.
document.addEventListener("submit", (event) => {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (form.dataset.sent && Date.now() - Number(form.dataset.sent) < 8000) {
    event.preventDefault();
    return;
  }
  if (form.hasAttribute("hx-post")) return;
  form.dataset.sent = String(Date.now());
});
// A page brought back from the browser's memory may send its forms again.
addEventListener("pageshow", () => {
  for (const form of document.forms) delete form.dataset.sent;
});
