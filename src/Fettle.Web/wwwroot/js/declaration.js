// The declaration page: tells the server which fields changed, so that only their parts come back, and folds what does not
// belong to the kind of unit. Without it the Check button does the same.
(() => {
  "use strict";

  const form = document.getElementById("declaration");
  if (!form) return;
  let changed = new Set();

  form.addEventListener("input", event => {
    if (event.target.name) changed.add(event.target.name);
  });

  form.addEventListener("change", event => {
    const { name, value } = event.target;
    const unit = event.target.closest(".unit");
    if (!unit || !name) return;
    const show = (selector, wanted) => unit.querySelectorAll(selector).forEach(part => part.classList.toggle("folded", !wanted));
    if (name.endsWith("].kind")) show(".only-pallet", value === "pallet");
    if (name.endsWith("].contents.kind"))
      unit.querySelectorAll("[data-kinds]").forEach(part => part.classList.toggle("folded", !part.dataset.kinds.split(" ").includes(value)));
  });

  // Only the form's own checks; a pressed button sends the whole page by itself.
  document.addEventListener("htmx:configRequest", event => {
    if (event.detail.elt !== form || changed.size === 0) return;
    event.detail.headers["X-Changed"] = [...changed].join(",");
    changed = new Set();
  });
})();
