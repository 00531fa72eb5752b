// The drawer for what a keen student adds to a break. Everything in it can be
// left out.
(() => {
  const bw = (window.bw ??= /** @type {Bw} */ ({}));
  const $ = (id) => document.getElementById(id);
  const inchesPerSecond = 63360 / 3600; // of one mile an hour, exactly
  const number = (text) => {
    const v = parseFloat(String(text).replace(",", "."));
    return Number.isFinite(v) ? v : undefined;
  };
  // What a typed number is in inches and miles an hour, which are kept, and back. The
  // club's units stand at the drawer.
  const sizeOf = (what) => Number($("details").dataset[what]);
  const read = (text, what) => {
    const v = number(text);
    return v === undefined ? undefined : Math.round((v / sizeOf(what)) * 100) / 100;
  };
  const shown = (v, what) => Math.round(v * sizeOf(what) * 10) / 10;
  /** @type {Parameters<Bw["details"]["start"]>[0]} */
  let ui; // from record-entry.js

  const chips = () => {
    for (const chip of document.querySelectorAll("[data-field]")) {
      chip.addEventListener("click", () => ui.change((e) => {
        const { field = "", value } = chip.dataset;
        e[field] = e[field] === value ? undefined : value;
      }));
    }
    for (const button of document.querySelectorAll("[data-step]")) {
      button.addEventListener("click", () => ui.change((e) => {
        const { count = "", step } = button.dataset;
        const next = e[count] === undefined ? (step === "1" ? 1 : 0) : e[count] + Number(step);
        e[count] = next < 0 ? undefined : Math.min(next, ui.plan().balls);
      }));
    }
  };

  // speedOf is the distance over the time that so many frames take.
  bw.speedOf = (inches, frames, fps) => Math.round((inches / (frames / fps) / inchesPerSecond) * 10) / 10;
  const showSpeed = () => {
    const frames = number($("frames").value) ?? 0;
    const mph = frames > 0 ? bw.speedOf(ui.plan().run, frames, Number($("fps").value)) : 0;
    const fits = mph >= 1 && mph <= 40, speed = bw.speedWords(mph);
    $("mph").textContent = !mph ? "" : fits ? `${speed} over the whole way` : `${speed} cannot be: count again`;
    $("take-mph").hidden = !fits;
    $("take-mph").onclick = () => ui.change((e) => { e.speed = mph; });
  };

  // typing is the field whose letters are not in the entry yet: showing the
  // entry, which an answer from the server does at any moment, must not take them.
  let /** @type {PageElement | null} */ typing = null;
  const field = (id, put) => {
    $(id).addEventListener("input", () => { typing = $(id); });
    $(id).addEventListener("change", () => {
      typing = null;
      ui.change((e) => put(e, $(id).value));
    });
  };
  const write = (id, value) => { if ($(id) !== typing) $(id).value = value; };

  const typed = () => {
    field("speed", (e, value) => { e.speed = read(value, "mile"); });
    field("note", (e, value) => { e.note = value; });
    $("frames").addEventListener("input", showSpeed);
    $("fps").addEventListener("change", showSpeed);
    $("cue-how").addEventListener("change", () => ui.change((e) => {
      const how = $("cue-how").value;
      if (how === "stopped") {
        const [left, right, head, foot] = ui.plan().window;
        e.cue = { how, ...bw.onCloth({ x: (left + right) / 2, y: (head + foot) / 2 }, ui.plan()) };
      } else e.cue = how === "" ? null : how === "off-table" ? { how } : { how: "scratch", pocket: how };
    }));
    for (const axis of ["x", "y"]) {
      field(`cue-${axis}`, (e, value) => {
        const v = read(value, "inch");
        if (v === undefined || e.cue?.how !== "stopped") return;
        e.cue = { how: "stopped", ...bw.onCloth({ ...e.cue, [axis]: v }, ui.plan()) };
      });
    }
  };

  // fates lists where each other ball went, for whoever does not tap pictures.
  const buildFates = () => {
    const plan = ui.plan();
    $("fates").replaceChildren(...Array.from({ length: plan.balls }, (_, i) => i + 1).map((n) => {
      const field = bw.element("div", { className: "field" });
      const label = bw.element("label", { htmlFor: `fate-${n}`, textContent: `The ${n}` });
      const select = bw.element("select", { id: `fate-${n}` });
      select.append(bw.option("", "stayed up"), ...bw.pockets.map((p) => bw.option(p, bw.capital(bw.pocketWords(p).slice(4)))), bw.option("off", "Off the table"), bw.option("rest", "Stopped where tapped"));
      select.options[select.options.length - 1].hidden = true;
      select.addEventListener("change", () => ui.change((e) => {
        if (select.value === "") delete e.balls[n];
        else e.balls[n] = select.value === "off" ? { off: true } : { pocket: select.value };
      }));
      field.append(label, select);
      return field;
    }));
  };

  bw.details = {
    start(host) { ui = host; chips(); typed(); },
    // newPlan fits the drawer to a set's plan.
    newPlan() {
      buildFates();
      $("run").textContent = `${shown(ui.plan().run, "inch")} ${$("details").dataset.length} in this setup`;
    },
    // settle takes what is still being typed into the entry.
    settle() { typing?.dispatchEvent(new Event("change")); },
    show() {
      const e = ui.entry();
      for (const chip of document.querySelectorAll("[data-field]")) chip.setAttribute("aria-pressed", String(e[chip.dataset.field ?? ""] === chip.dataset.value));
      for (const count of ["rails", "past_string"]) $(count).textContent = e[count] === undefined ? "not counted" : e[count];
      write("speed", e.speed ? shown(e.speed, "mile") : "");
      write("note", e.note ?? "");
      $("cue-how").value = e.cue ? e.cue.pocket || e.cue.how : "";
      for (const axis of ["x", "y"]) {
        $(`cue-${axis}`).disabled = e.cue?.how !== "stopped";
        write(`cue-${axis}`, e.cue?.how === "stopped" ? shown(e.cue[axis], "inch") : "");
      }
      for (const select of $("fates").querySelectorAll("select")) {
        const fate = e.balls[select.id.slice(5)];
        select.value = !fate ? "" : fate.pocket || (fate.off ? "off" : "rest");
        select.parentElement.hidden = !ui.isOther(Number(select.id.slice(5)));
      }
      showSpeed();
    },
  };
})();
