// Marks on the table that the server drew, and what a tap on it means. The
// picture is true to scale: ten of its units are an inch, the breaker stands at
// the bottom. The marks are those of package picture.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const radius = 1.125, rail = 5.5, perInch = 10; // inches: a ball, the drawn rails; units an inch
  const ink = "#17222d", ivory = "#fffdf4", lost = "#8a2d1c";
  const make = (name, attributes, text) => {
    const node = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
    if (text !== undefined) node.textContent = text;
    return node;
  };
  const u = (inches) => Math.round(inches * perInch * 10) / 10;

  // table puts the picture of a plan's table into a place, without marks.
  bw.table = (place, cloth, name) => {
    const parsed = new DOMParser().parseFromString(cloth, "image/svg+xml").documentElement;
    const svg = document.importNode(parsed, true);
    svg.setAttribute("preserveAspectRatio", "xMidYMax meet"); // nearer to the thumb
    for (const gone of svg.querySelectorAll("title, desc, .pic-pocket-target")) gone.remove();
    svg.removeAttribute("aria-labelledby");
    svg.removeAttribute("id");
    if (name) svg.setAttribute("aria-label", name);
    else svg.removeAttribute("role");
    place.replaceChildren(svg);
    return svg;
  };

  const pocketAt = (svg, name) => {
    const hole = svg.querySelector(`circle[data-pocket="${name}"]`);
    return { x: hole.cx.baseVal.value / perInch, y: -hole.cy.baseVal.value / perInch };
  };
  const centred = (x, y, size) => ({ x, y: y + size * 0.35, "font-size": size, "font-weight": 600, "text-anchor": "middle" });
  const numbered = (g, x, y, size, label, colour) => label && g.append(make("text", { ...centred(x, y, size), fill: colour, stroke: "none" }, label));

  // mark draws one thing seen: {x, y} on the cloth, {pocket} or {off}; label is
  // a break's or a ball's number, slot tells those in one place apart.
  const drawMark = (svg, g, plan, mark, slot, scale) => {
    const r = 17 * scale, size = 22 * scale;
    if ("x" in mark) {
      const shape = mark.ball
        ? { class: "pic-stop", cx: u(mark.x), cy: u(-mark.y), r, fill: "#ffffff", stroke: ink, "stroke-width": 3 }
        : { class: "pic-stop", cx: u(mark.x), cy: u(-mark.y), r: mark.label ? r : 13 * scale, fill: ivory, stroke: ink, "stroke-width": mark.label ? 1.6 : 4 };
      g.append(make("circle", shape));
      numbered(g, u(mark.x), u(-mark.y), size, mark.label, ink);
      return;
    }
    const at = mark.pocket ? pocketAt(svg, mark.pocket) : { x: -plan.width / 2 + 4 + slot * 5, y: plan.length + rail - 1.5 };
    const inward = mark.pocket ? { x: at.x - Math.sign(at.x) * slot * 4, y: at.y } : at;
    const [x, y] = [u(inward.x), u(-inward.y)];
    const path = mark.pocket ? `M${x - r} ${y - r}h${2 * r}v${2 * r}h${-2 * r}z` : `M${x} ${y - 1.2 * r}l${1.2 * r} ${2.2 * r}h${-2.4 * r}z`;
    g.append(make("path", { class: mark.ball ? "pic-down" : "pic-lost", d: path, fill: mark.ball ? ink : lost, stroke: ivory, "stroke-width": 2, "stroke-linejoin": "round" }));
    numbered(g, x, y + (mark.pocket ? 0 : 4), size, mark.label, ivory);
  };

  // marks draws the window and all marks anew; a small picture has larger ones.
  bw.marks = (svg, plan, marks, scale = 1) => {
    svg.querySelector(".marks")?.remove();
    const g = make("g", { class: "marks" });
    const [left, right, head, foot] = plan.window;
    g.append(make("rect", { class: "pic-window", x: u(left), y: u(-foot), width: u(right - left), height: u(foot - head), fill: "#fff", "fill-opacity": ".3", stroke: "#fff", "stroke-opacity": ".8", "stroke-width": 2, "stroke-dasharray": "9 6" }));
    const slots = {};
    for (const m of marks) {
      const key = m.pocket || (m.off ? "off" : "");
      slots[key] = (slots[key] ?? -1) + 1;
      drawMark(svg, g, plan, m, slots[key], scale);
    }
    svg.append(g);
  };

  // pointOf turns a place on the screen into inches.
  bw.pointOf = (svg, clientX, clientY) => {
    const p = new DOMPoint(clientX, clientY).matrixTransform(svg.getScreenCTM().inverse());
    return { x: p.x / perInch, y: -p.y / perInch };
  };
  const tenth = (v) => Math.round(v * 10) / 10 || 0;
  const clamp = (v, low, high) => Math.min(Math.max(v, low), high);
  // onCloth gives the nearest place where a whole ball fits, to a tenth of an inch.
  bw.onCloth = (at, plan) => ({
    x: tenth(clamp(at.x, radius - plan.width / 2, plan.width / 2 - radius)),
    y: tenth(clamp(at.y, radius, plan.length - radius)),
  });
  const holeReach = 3; // inches
  // meant says what a point means: {pocket} in a hole or, within reach inches of
  // one, on the wood around it; {near, x, y} on the cloth as near, which has to be
  // asked; a place on the cloth; {} beside the table.
  bw.meant = (svg, plan, at, reach) => {
    const onCloth = Math.abs(at.x) <= plan.width / 2 && at.y >= 0 && at.y <= plan.length;
    for (const pocket of bw.pockets) {
      const hole = pocketAt(svg, pocket), away = Math.hypot(hole.x - at.x, hole.y - at.y);
      if (away <= holeReach || (away <= reach && !onCloth)) return { pocket };
      if (away <= reach) return { near: pocket, ...bw.onCloth(at, plan) };
    }
    const beyond = Math.abs(at.x) > plan.width / 2 + rail || at.y < -rail || at.y > plan.length + rail;
    return beyond ? {} : bw.onCloth(at, plan);
  };

  // loupe shows what is under the finger, larger, beside it.
  bw.loupe = (place, svg, at) => {
    const reach = 85; // units on each side
    const copy = svg.cloneNode(true);
    copy.setAttribute("viewBox", `${u(at.x) - reach} ${u(-at.y) - reach} ${2 * reach} ${2 * reach}`);
    copy.append(make("path", { d: `M${u(at.x) - 24} ${u(-at.y)}h48m-24-24v48`, stroke: ink, "stroke-width": 2 }));
    place.replaceChildren(copy);
  };
})();
