// Sets the theme and the density on <html> before anything is painted, so that
// no page flashes white in the dark. The app writes the two keys; this reads them.
// Never dark unasked: outdoors it is the hardest to read.
"use strict";
(() => {
  const kept = (key, allowed) => {
    try {
      const value = localStorage.getItem(key);
      return allowed.includes(value) ? value : "";
    } catch {
      return ""; // storage is blocked: the defaults serve
    }
  };
  const prefers = (query) => window.matchMedia(query).matches;
  const theme = kept("lugmark.theme", ["light", "dark", "sun"]) || (prefers("(prefers-contrast: more)") ? "sun" : "light");
  const density = kept("lugmark.density", ["hand", "gloves", "desk"]) || (prefers("(pointer: coarse)") ? "gloves" : "desk");
  document.documentElement.dataset.theme = theme;
  document.documentElement.dataset.density = density;
  const bar = document.querySelector('meta[name="theme-color"]');
  bar.content = { light: "#FBFAF7", dark: "#0E1216", sun: "#FFFFFF" }[theme];
})();
