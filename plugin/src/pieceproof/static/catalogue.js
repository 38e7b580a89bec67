// Narrows and sorts the catalogue's cards and keeps what is asked for in the address, so that a
// view can be passed on. Without this script all cards are shown.
(() => {
  "use strict";
  const form = document.querySelector("form[data-catalogue]");
  if (!form) return;
  const list = document.querySelector("ul.catalogue");
  const cards = [...list.querySelectorAll(".pattern-card")];
  const words = new Map(cards.map((card) => [card, card.textContent.toLowerCase()]));
  const free = ["q", "sort"];

  const asked = () => new URLSearchParams([...new FormData(form)].filter(([, value]) => value));
  const isFiled = (card, key, token) => (card.dataset[key] || "").split(" ").includes(token);
  const matches = (card, view) =>
    (view.get("q") || "")
      .toLowerCase()
      .split(/\s+/)
      .every((word) => words.get(card).includes(word)) &&
    [...view].every(([key, token]) => free.includes(key) || isFiled(card, key, token));

  const sorted = (by) => {
    const rank = (card) => Number(card.getAttribute(`data-by-${by}`) || 0);
    return [...cards].sort((one, other) => rank(one) - rank(other));
  };

  const show = () => {
    const view = asked();
    const found = cards.filter((card) => matches(card, view));
    for (const card of cards) card.hidden = !found.includes(card);
    list.append(...sorted(view.get("sort")));
    form.querySelector("[data-found]").textContent = found.length;
    form.querySelector("[data-found-word]").textContent =
      found.length === 1 ? "pattern" : "patterns";
    document.querySelector(".nothing-found").hidden = found.length > 0;
    const plain = view.size === 0 || (view.size === 1 && view.get("sort") === "name");
    form.querySelector("[type=reset]").hidden = plain;
    return plain ? "" : view.toString();
  };
  const fromAddress = () => {
    const view = new URLSearchParams(location.hash.slice(1) || location.search);
    for (const field of form.elements) {
      if (field.type === "checkbox") field.checked = view.get(field.name) === field.value;
      else if (field.name) field.value = view.get(field.name) || "";
      if (field.name && field.type.startsWith("select") && field.selectedIndex < 0) {
        field.selectedIndex = 0;
      }
    }
    const narrows = [...view.keys()].some((key) => form.elements[key] && !free.includes(key));
    if (narrows) form.querySelector("details").open = true;
    show();
  };
  const keep = () => {
    const view = show();
    history.replaceState(null, "", view ? `#${view}` : location.pathname);
  };

  fromAddress();
  form.addEventListener("input", keep);
  form.addEventListener("reset", () => setTimeout(keep));
  form.addEventListener("submit", (event) => event.preventDefault());
  addEventListener("hashchange", fromAddress);
})();
