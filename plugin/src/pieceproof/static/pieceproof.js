// Remembers what the reader chose and ticked on a pattern's page, in this browser only, and keeps
// the choice in the address so that it can be passed on. Choosing works without this script.
(() => {
  "use strict";
  const form = document.querySelector("form[data-pattern]");
  if (!form) return;
  const kept = `pieceproof ${form.dataset.pattern}`;
  const ticks = [...document.querySelectorAll("input[data-tick]")];

  const read = (key) => {
    try {
      return new URLSearchParams(localStorage.getItem(key) || "");
    } catch {
      return new URLSearchParams(); // storage is switched off
    }
  };
  const write = (key, values) => {
    try {
      localStorage.setItem(key, values.toString());
    } catch {
      // storage is switched off or full: the page works all the same
    }
  };

  const chosen = () => new URLSearchParams(new FormData(form));
  const tickKey = () => `${kept} ticks ${chosen().get("size") || ""}`;

  const choose = (values) => {
    for (const button of form.querySelectorAll("input[type=radio]")) {
      if (values.get(button.name) === button.value) button.checked = true;
    }
  };
  const showTicks = () => {
    const done = read(tickKey());
    for (const tick of ticks) tick.checked = done.has(tick.dataset.tick);
  };
  const keepTicks = () => {
    const done = ticks.filter((tick) => tick.checked).map((tick) => [tick.dataset.tick, "1"]);
    write(tickKey(), new URLSearchParams(done));
  };
  const fromAddress = () => new URLSearchParams(location.hash.slice(1));

  choose(read(kept));
  choose(fromAddress());
  showTicks();

  form.addEventListener("change", () => {
    write(kept, chosen());
    history.replaceState(null, "", `#${chosen()}`);
    showTicks();
  });
  addEventListener("hashchange", () => {
    choose(fromAddress());
    showTicks();
  });
  for (const tick of ticks) tick.addEventListener("change", keepTicks);
})();
