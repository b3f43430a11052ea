// The board by keyboard and touch: arrows move, Enter opens, X ticks. What is ticked and where one is stays over a renewal.
(() => {
  "use strict";

  const board = () => document.getElementById("board");
  const ticks = () => [...board().querySelectorAll('input[name="holds"]')];
  const opens = () => [...board().querySelectorAll("a.number-name")];
  const rowOf = element => element?.closest?.("tr[id]");

  // Only what is alike is decided together: once one is ticked the others that differ cannot be.
  const fit = () => {
    const first = ticks().find(tick => tick.checked);
    const like = first && rowOf(first).dataset.like;
    for (const tick of ticks()) {
      const unlike = like !== undefined && rowOf(tick).dataset.like !== like;
      tick.disabled = unlike;
      rowOf(tick).toggleAttribute("data-unlike", unlike);
    }
    const all = document.getElementById("together-all");
    if (!all) return;
    all.hidden = !first || ticks().every(tick => tick.checked || tick.disabled);
    document.getElementById("together-none").hidden = !first;
  };

  const set = checked => {
    ticks().filter(tick => !tick.disabled).forEach(tick => tick.checked = checked);
    fit();
  };

  document.addEventListener("change", event => {
    if (event.target.name === "holds") fit();
  });
  document.addEventListener("click", event => {
    if (event.target.id === "together-all") set(true);
    if (event.target.id === "together-none") set(false);
  });

  let kept = null;
  document.addEventListener("htmx:beforeSwap", event => {
    if (event.detail.target.id !== "board") return;
    kept = { ticked: ticks().filter(tick => tick.checked).map(tick => tick.id), focus: board().contains(document.activeElement) ? document.activeElement.id : "" };
  });
  document.addEventListener("htmx:afterSwap", () => {
    if (!kept) return;
    for (const tick of ticks()) tick.checked = kept.ticked.includes(tick.id);
    if (kept.focus) document.getElementById(kept.focus)?.focus({ preventScroll: true });
    kept = null;
    fit();
  });

  document.addEventListener("keydown", event => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target.closest("input:not([type=checkbox]), select, textarea, [contenteditable]")) return;
    const rows = opens();
    const here = rows.findIndex(open => rowOf(open) === rowOf(document.activeElement));
    const go = index => {
      rows[Math.max(0, Math.min(rows.length - 1, index))]?.focus();
      event.preventDefault();
    };
    const columns = { e: "expected", n: "unseen", f: "floor", h: "held", o: "overdue" };
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    if (key === "ArrowDown" || key === "j") go(here + 1);
    else if (key === "ArrowUp" || key === "k") go(here < 0 ? 0 : here - 1);
    else if (key === "Home" && here >= 0) go(0);
    else if (key === "End" && here >= 0) go(rows.length - 1);
    else if (key === "x" && here >= 0) rowOf(rows[here]).querySelector('input[name="holds"]')?.click();
    else if (columns[key]) document.getElementById(`tab-${columns[key]}`)?.click();
  });

  fit();
})();
