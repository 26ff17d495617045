// A click on "line 12" selects that line in the text.

const text = document.getElementById("text");

document.addEventListener("click", (event) => {
  const link = event.target.closest("[data-line]");
  if (!link || !text) return;
  event.preventDefault();
  const lines = text.value.split("\n");
  const line = Number(link.dataset.line) - 1;
  const start = lines.slice(0, line).reduce((sum, one) => sum + one.length + 1, 0);
  text.focus();
  text.setSelectionRange(start, start + (lines[line] || "").length);
  text.scrollTop = (text.scrollHeight / lines.length) * Math.max(0, line - 3);
  text.scrollIntoView({ block: "nearest" });
});
