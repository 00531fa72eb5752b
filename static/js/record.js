// The plain form of a break. Where the phone can keep breaks itself, the page at
// the table takes its place; it sends back here, saying "plain", where it
// cannot.
const next = location.pathname.match(/^\/my\/sets\/([^/]+)\/next$/);
if (next && !location.search.includes("plain") && "indexedDB" in window && !document.querySelector("[role=alert], #read-back")) {
  location.replace(`/table?set=${next[1]}`);
}
// Saves a round trip: a tap on the picture marks the cue ball at once. Without
// this script the picture is a button that sends the pixel to the server.
const tap = document.querySelector(".tap input[type=image]");
if (tap) {
  const mark = document.querySelector(".tap .mark");
  const across = document.getElementById("cue_x");
  const along = document.getElementById("cue_y");
  const inches = (name) => Number(tap.dataset[name]);
  const inch = inches("inch"); // as long as it is typed: 2.54 where the club reads centimetres
  const typed = (v) => String(Number((v * inch).toFixed(inch === 1 ? 1 : 0)));
  const clamp = (v, low, high) => Math.min(Math.max(v, low), high);
  const ball = 1.125; // a ball's radius: the closest its centre comes to a rail

  const show = () => {
    const x = Number(across.value.replace(",", ".")), y = Number(along.value.replace(",", "."));
    const known = across.value !== "" && along.value !== "" && Number.isFinite(x) && Number.isFinite(y);
    mark.hidden = !known;
    if (!known) return;
    mark.style.left = `${((x / inch - inches("left")) / inches("width")) * 100}%`;
    mark.style.top = `${((inches("top") - y / inch) / inches("height")) * 100}%`;
  };
  tap.addEventListener("click", (event) => {
    if (event.detail === 0) return; // pressed from the keyboard: there is no place to read
    event.preventDefault();
    const box = tap.getBoundingClientRect();
    const x = inches("left") + ((event.clientX - box.left) / box.width) * inches("width");
    const y = inches("top") - ((event.clientY - box.top) / box.height) * inches("height");
    const half = inches("halfWidth") - ball;
    across.value = typed(clamp(x, -half, half)).replace(/^-0$/, "0");
    along.value = typed(clamp(y, ball, inches("length") - ball));
    document.querySelector(".where").textContent = `${across.value} across, ${along.value} along`;
    show();
  });
  for (const field of [across, along]) field.addEventListener("input", show);
  show();
}
