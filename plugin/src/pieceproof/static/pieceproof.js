// A pattern's page: remembers what the reader chose and ticked, in this browser only, keeps the
// choice in the address so that it can be passed on, leads back to where she stopped, copies and
// prints the shopping list, and shows drawings large. Choosing works without this script.
(() => {
  "use strict";
  const form = document.querySelector("form[data-pattern]");
  if (!form) return;
  const kept = `pieceproof ${form.dataset.pattern}`;
  const own = "pieceproof reader"; // what holds for every pattern: her cloth, units and hand
  const everywhere = ["width", "measure", "hand"];
  const ticks = [...document.querySelectorAll("input[data-tick]")];
  const part = (name) => document.querySelector(`[data-part="${name}"]`);

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

  // ---- the choice

  const chosen = () => new URLSearchParams(new FormData(form));
  const tickKey = () => `${kept} ticks ${chosen().get("size") || ""}`;

  const choose = (values) => {
    for (const button of form.querySelectorAll("input[type=radio]")) {
      if (values.get(button.name) === button.value) button.checked = true;
    }
  };
  const keepChoice = () => {
    const values = chosen();
    const general = read(own);
    for (const key of everywhere) {
      if (values.has(key)) general.set(key, values.get(key));
    }
    write(own, general);
    write(kept, values);
    history.replaceState(null, "", `#${values}`);
  };

  // ---- ticks, and where she stopped

  const isShown = (element) => element.getClientRects().length > 0;
  const titleOf = (tick) => {
    const place = tick.closest(".step, section.beside");
    const heading = place && place.querySelector("h3, .fabric");
    return heading ? heading.innerText.split("\n")[0].trim() : "";
  };
  const showProgress = () => {
    const shown = ticks.filter(isShown);
    const done = shown.filter((tick) => tick.checked).length;
    const last = shown.map((tick) => tick.checked).lastIndexOf(true);
    const next = shown.slice(last + 1).find((tick) => !tick.checked) ||
      shown.find((tick) => !tick.checked);
    part("progress").hidden = done === 0;
    part("done").textContent = `${done} of ${shown.length} ticked.`;
    part("go-on").hidden = !next;
    if (next) {
      part("go-on").textContent = `Go on at: ${titleOf(next)}`;
      part("go-on").onclick = () => {
        next.closest("tr, .step").scrollIntoView({ block: "center" });
        next.focus({ preventScroll: true });
      };
    }
  };
  const showTicks = () => {
    const done = read(tickKey());
    for (const tick of ticks) tick.checked = done.has(tick.dataset.tick);
    showProgress();
  };
  const keepTicks = () => {
    const done = ticks.filter((tick) => tick.checked).map((tick) => [tick.dataset.tick, "1"]);
    write(tickKey(), new URLSearchParams(done));
    showProgress();
  };
  const untick = () => {
    if (!confirm("Take all ticks of this size off?")) return;
    for (const tick of ticks) tick.checked = false;
    keepTicks();
    document.getElementById("pp-chooser").scrollIntoView();
  };

  // ---- the shopping list

  const shoppingList = () => {
    const rows = [...document.querySelectorAll(".materials tbody")].filter(isShown);
    const lines = rows.map((row) => {
      const [name, ...more] = row.querySelector("th").innerText.split("\n").filter(Boolean);
      const told = more.length ? ` (${more.join(", ")})` : "";
      return `${row.querySelector("td").innerText.trim()}  ${name.trim()}${told}`;
    });
    const title = document.querySelector("h1").innerText;
    const choice = document.querySelector(".chosen > span").innerText.replace(/\s+/g, " ");
    return [title, choice.trim(), "", ...lines, ""].join("\n");
  };
  const copyByHand = (text) => {
    const area = document.createElement("textarea");
    area.value = text;
    document.body.append(area);
    area.select();
    document.execCommand("copy");
    area.remove();
  };
  const copyList = async () => {
    const text = shoppingList();
    try {
      await navigator.clipboard.writeText(text);
    } catch {
      copyByHand(text);
    }
    part("copied").textContent = "Copied.";
  };
  const printList = () => {
    document.body.classList.add("print-list");
    addEventListener("afterprint", () => document.body.classList.remove("print-list"), {
      once: true,
    });
    print();
  };

  // ---- drawings, large

  const large = document.createElement("dialog");
  large.className = "large";
  large.innerHTML =
    '<form method="dialog" class="large-bar"><button type="button" data-zoom="0.8">Smaller</button>' +
    '<button type="button" data-zoom="1.25">Larger</button><button autofocus>Close</button></form>' +
    '<div class="large-paper" tabindex="0" role="group" aria-label="Drawing, large"></div>';
  document.body.append(large);
  const paper = large.querySelector(".large-paper");
  let scale = 1;
  const zoom = (factor) => {
    scale = Math.min(6, Math.max(1, scale * factor));
    paper.style.setProperty("--zoom", scale);
  };
  // The drawing itself moves, so that ids stay unique; its place keeps its size.
  const enlarge = (figure, drawing) => {
    figure.style.minHeight = `${figure.offsetHeight}px`;
    const [width, height] = ["width", "height"].map((side) => drawing.getAttribute(side));
    paper.style.setProperty("--ratio", width / height);
    const name = drawing.getAttribute("alt") || drawing.querySelector("title")?.textContent;
    large.setAttribute("aria-label", name || "Drawing");
    paper.append(drawing);
    scale = 1;
    zoom(1);
    large.showModal();
    large.addEventListener(
      "close",
      () => {
        figure.prepend(drawing);
        figure.style.minHeight = "";
        figure.querySelector("button")?.focus();
      },
      { once: true },
    );
  };
  large.addEventListener("click", (event) => {
    const factor = event.target.dataset.zoom;
    if (factor) zoom(Number(factor));
    else if (event.target === large) large.close();
  });
  for (const figure of document.querySelectorAll(".pattern figure.drawing")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "enlarge";
    const what = figure.querySelector("img")?.alt || figure.querySelector("title")?.textContent;
    button.setAttribute("aria-label", `Enlarge: ${(what || "drawing").split(/[.:]/)[0]}`);
    button.addEventListener("click", () => enlarge(figure, figure.querySelector("svg, img")));
    figure.append(button);
  }

  // ---- start

  choose(read(kept));
  choose(read(own));
  choose(new URLSearchParams(location.hash.slice(1)));
  showTicks();

  form.addEventListener("change", () => {
    keepChoice();
    showTicks();
  });
  addEventListener("hashchange", () => {
    choose(new URLSearchParams(location.hash.slice(1)));
    showTicks();
  });
  for (const tick of ticks) tick.addEventListener("change", keepTicks);
  part("untick").addEventListener("click", untick);
  part("copy").addEventListener("click", copyList);
  part("print").addEventListener("click", printList);
})();
