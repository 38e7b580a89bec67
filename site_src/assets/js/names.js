// The theme's search opens as a dialog without a name; a screen reader needs one.
document.querySelector(".md-search[role=dialog]")?.setAttribute("aria-label", "Search");
