// Typing a sheet in: Enter goes to the next line, and from the last one to the
// button. Without this script Enter sends the form, which keeps nothing before
// all lines are there. It listens to the key's letter, which is what sends a
// form, so that the letter never reaches the field that comes next.
const lines = [...document.querySelectorAll(".typed input")];
for (const [i, line] of lines.entries()) {
  line.addEventListener("keypress", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    (lines[i + 1] ?? document.getElementById("save")).focus();
  });
}
// What is wrong with a line is said by the line itself, too.
document.addEventListener("htmx:afterSwap", (event) => {
  const says = event.detail.target?.id && document.getElementById(event.detail.target.id);
  const line = says?.parentElement?.querySelector("input");
  if (line) line.setAttribute("aria-invalid", String("wrong" in says.dataset));
});
