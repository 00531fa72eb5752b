// The desk keeps count as things are decided: of each group in the strip, and of the
// students who still wait.
{
  /** @param {string} selector @returns {HTMLElement[]} */
  const all = (selector) => [...document.querySelectorAll(selector)].map((node) => /** @type {HTMLElement} */ (node));
  const countAgain = () => {
    for (const link of all("[data-counts]")) {
      const number = link.querySelector("b");
      if (number) number.textContent = String(all(`[data-group="${link.dataset.counts}"] [data-waiting]`).length);
    }
    const students = new Set(all("[data-waiting]").flatMap((line) => (line.dataset.waiting ?? "").split(" ")));
    const answer = document.getElementById("desk-answer");
    if (!answer) return;
    if (students.size === 0) answer.textContent = "Nobody is waiting for you.";
    else if (students.size === 1) answer.textContent = "One student needs you today.";
    else answer.textContent = `${students.size} students need you today.`;
  };
  document.body.addEventListener("htmx:afterSwap", countAgain);
}
