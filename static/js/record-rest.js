// The rest between breaks: it counts down beside the words, without a sound, unless
// the student has switched it off.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  let ends = 0, ticking;
  const tick = () => {
    const left = Math.ceil((ends - Date.now()) / 1000);
    if (left <= 0) clearInterval(ticking);
    const words = left > 0 && localStorage.rest !== "off" ? `Rest ${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}` : "";
    document.getElementById("rest").textContent = words;
  };
  bw.rest = (seconds) => {
    clearInterval(ticking);
    ends = Date.now() + seconds * 1000;
    ticking = setInterval(tick, 1000);
    tick();
  };
  const name = () => { document.getElementById("swap-rest").textContent = `Switch the rest timer ${localStorage.rest === "off" ? "on" : "off"}`; };
  bw.swapRest = () => {
    localStorage.rest = localStorage.rest === "off" ? "" : "off";
    name();
    tick();
  };
  if (localStorage.rest) name();
})();
