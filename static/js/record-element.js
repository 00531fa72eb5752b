// Elements that scripts make, and buttons that they wire.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  // element makes one, with what is set on it.
  bw.element = (name, with_) => Object.assign(document.createElement(name), with_);
  bw.option = (value, textContent) => bw.element("option", { value, textContent });
  // onTap says what each button does, by its id.
  bw.onTap = (acts) => {
    for (const [id, act] of Object.entries(acts)) document.getElementById(id).addEventListener("click", act);
  };
})();
