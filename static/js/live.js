// Puts each new board in the place of the old one. The browser connects again
// by itself when the line is cut.
const board = document.querySelector(".board");
const state = document.getElementById("board-state");
const events = new EventSource(board.dataset.events);
events.addEventListener("board", (event) => {
  const scrolled = board.querySelector(".scroll")?.scrollLeft ?? 0;
  board.innerHTML = event.data;
  const scroll = board.querySelector(".scroll");
  if (scroll) scroll.scrollLeft = scrolled;
  if (state.textContent !== "Live.") state.textContent = "Live.";
});
events.addEventListener("error", () => {
  state.textContent = "The line is cut: this is the board as it was. It is being tried again.";
});
