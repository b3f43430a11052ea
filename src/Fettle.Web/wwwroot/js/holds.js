// The hold desk: the terms of an exception are shown with the decision that asks for them.
(() => {
  "use strict";

  const fit = form => {
    const chosen = form.querySelector('input[name="decision"]:checked, select[name="decision"]')?.value;
    for (const part of form.querySelectorAll("[data-with]"))
      part.hidden = part.dataset.with !== chosen;
  };

  document.addEventListener("change", event => {
    if (event.target.name === "decision") fit(event.target.form);
  });
  document.querySelectorAll("form.decide").forEach(fit);
})();
