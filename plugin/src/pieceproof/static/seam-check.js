// Shows what the reader's own seam does to the pattern, from what her three strips measure, and
// keeps the measure in this browser only, for all patterns with such strips. Everything shown stands
// on the page already; without this script the table says the same for four seams.
(() => {
  "use strict";
  const form = document.querySelector("form[data-seam-check]");
  if (!form) return;
  const kept = `pieceproof strips ${form.dataset.seamCheck}`;
  const measured = form.querySelector("select");

  const show = () => {
    for (const outcome of form.querySelectorAll("[data-measured]")) {
      outcome.hidden = outcome.dataset.measured !== measured.value;
    }
  };

  try {
    const last = localStorage.getItem(kept);
    if ([...measured.options].some((option) => option.value === last)) measured.value = last;
  } catch {
    // storage is switched off: the page works all the same
  }
  form.addEventListener("submit", (event) => event.preventDefault());
  measured.addEventListener("change", () => {
    show();
    try {
      localStorage.setItem(kept, measured.value);
    } catch {
      // storage is switched off or full
    }
  });
  show();
  form.hidden = false;
})();
