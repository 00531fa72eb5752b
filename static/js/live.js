// Puts each new board in the place of the old one. The browser connects again by itself
// when the line is cut, and gives up for good when something else answers: then the page
// is loaded anew once the server is ready, which may lead to the sign-in.
const board = document.querySelector(".board");
const state = document.getElementById("board-state");
const events = new EventSource(board.dataset.events ?? "");
events.addEventListener("board", (event) => {
  const scrolled = board.querySelector(".scroll")?.scrollLeft ?? 0;
  board.innerHTML = event.data;
  const scroll = board.querySelector(".scroll");
  if (scroll) scroll.scrollLeft = scrolled;
  if (state.textContent !== "Live.") state.textContent = "Live.";
});
events.addEventListener("error", () => {
  state.textContent = "The line is cut: this is the board as it was. It is being tried again.";
  if (events.readyState === EventSource.CLOSED) setTimeout(loadWhenReady, 1000);
});
const loadWhenReady = async () => {
  const ready = await fetch("/readyz").then((answer) => answer.ok, () => false);
  if (ready) location.reload();
  else setTimeout(loadWhenReady, 3000);
};
