// In: the name of the build this page was served from, and the preview's events.
// Out: a reload after another good build; a panel with the problems after a failed one.
"use strict";
(() => {
  const servedFrom = document.currentScript.dataset.page;
  let events = null;
  let shownBuild = "";
  let panel = null;

  function removePanel() {
    if (panel) panel.remove();
    panel = null;
  }

  function addStyle() {
    if (document.querySelector('link[href="/__live.css"]')) return;
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = "/__live.css";
    document.head.append(link);
  }

  // The same build may be told again after the tab was hidden: what was dismissed stays dismissed.
  function show(state) {
    if (state.page !== servedFrom) {
      location.reload();
      return;
    }
    if (state.build === shownBuild) return;
    shownBuild = state.build;
    removePanel();
    if (!state.panel) return;
    addStyle();
    panel = document.createElement("section");
    panel.className = state.ok ? "live-panel" : "live-panel live-failed";
    panel.setAttribute("aria-label", "Preview");
    panel.setAttribute("tabindex", "0"); // a long list scrolls, by keyboard too
    document.body.append(panel);
    panel.innerHTML = state.panel; // escaped where it is made
    panel.querySelector("button").addEventListener("click", removePanel);
  }

  function listen() {
    if (events) return;
    events = new EventSource("/__live");
    events.addEventListener("build", (event) => show(JSON.parse(event.data)));
  }

  function pause() {
    if (events) events.close();
    events = null;
  }

  // Browsers open six connections to a server at most: a hidden tab must not keep one.
  function followVisibility() {
    if (document.hidden) pause();
    else listen();
  }

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") removePanel();
  });
  document.addEventListener("visibilitychange", followVisibility);
  window.addEventListener("pagehide", pause);
  window.addEventListener("pageshow", followVisibility);
  followVisibility();
})();
