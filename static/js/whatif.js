// What if: own numbers choose themselves, and one break is played; what is moved
// in the pictures is drawn.js's. Without this script the fields, the
// buttons and the stills do the same.
document.documentElement.classList.add("scripted");
{
  const byId = (id) => document.getElementById(id);
  const between = (v, low, high) => Math.min(Math.max(v, low), high);

  // Typing an own number means own numbers.
  document.addEventListener("input", (event) => {
    const name = event.target?.name ?? "";
    if (!name.startsWith("scatter_")) return;
    const choice = name === "scatter_gap" ? "racking" : "hands";
    const own = document.querySelector(`#setting [name="${choice}"][value="own"]`);
    if (own) own.checked = true;
  });

  // A break that is played. Times are milliseconds of the break.
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  let frame = 0;
  function player(section) {
    const svg = section.querySelector(".pic-play"), hands = section.querySelector(".play-hands");
    const go = hands.querySelector(".play-go"), bar = hands.querySelector("input"), says = hands.querySelector("output");
    const pace = hands.querySelector("select");
    const end = Number(svg.dataset.milliseconds);
    const stops = [...section.querySelectorAll(".pic-stills figcaption")].map((c) => parseFloat(c.textContent) * 1000);
    const balls = [...svg.querySelectorAll(".pic-moving")].map((group) => ({
      group, gone: Number(group.dataset.gone || Infinity), home: group.getAttribute("transform"),
      legs: group.dataset.legs ? group.dataset.legs.split(";").map((leg) => leg.split(" ").map(Number)) : [],
    }));
    let now = 0, going = false, last = 0;
    const where = ({ legs, home }, t) => {
      if (!legs.length || t <= legs[0][0]) return home;
      const leg = legs.find((l) => t <= l[1]) ?? legs[legs.length - 1];
      const u = between((t - leg[0]) / Math.max(leg[1] - leg[0], 0.01), 0, 1), w = 1 - u;
      const mix = (a, b, c) => (w * w * a + 2 * u * w * b + u * u * c).toFixed(1);
      return `translate(${mix(leg[2], leg[4], leg[6])} ${mix(leg[3], leg[5], leg[7])})`;
    };
    const show = (t) => {
      now = between(t, 0, end);
      for (const ball of balls) {
        ball.group.setAttribute("transform", where(ball, now));
        ball.group.classList.toggle("pic-gone", now >= ball.gone);
      }
      bar.value = String(now);
      says.textContent = (now / 1000).toFixed(2) + " s";
      bar.setAttribute("aria-valuetext", says.textContent);
    };
    const pause = () => { going = false; cancelAnimationFrame(frame); go.textContent = now >= end ? "Play again" : "Play"; };
    const tick = (at) => {
      if (!going || !svg.isConnected) return;
      show(now + (at - last) * Number(pace.value));
      last = at;
      if (now >= end) pause(); else frame = requestAnimationFrame(tick);
    };
    go.addEventListener("click", () => {
      if (going) return pause();
      if (now >= end) show(0);
      going = true; go.textContent = "Pause"; last = performance.now();
      frame = requestAnimationFrame(tick);
    });
    hands.querySelector(".play-step").addEventListener("click", () => {
      pause();
      show(stops.find((t) => t > now + 5) ?? end);
      pause();
    });
    hands.querySelector(".play-start").addEventListener("click", () => { pause(); show(0); pause(); });
    bar.addEventListener("input", () => { pause(); show(Number(bar.value)); pause(); });
    still.addEventListener("change", () => { if (still.matches) pause(); });
    bar.max = String(Math.ceil(end));
    hands.hidden = false;
    show(0);
  }
  const ready = () => {
    const section = byId("play");
    if (section && !section.dataset.ready) { section.dataset.ready = "1"; player(section); }
  };
  document.addEventListener("htmx:afterSettle", ready);
  document.addEventListener("DOMContentLoaded", ready);
  ready();
}
