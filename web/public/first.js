// Runs before the first paint, so that a panel loaded in the dark does not flash bright and nothing changes its size.
// Sets the light stored on this device, or else the system's preference, and the stored length of a millimetre.
(() => {
  const read = (key) => {
    try {
      return localStorage.getItem(key);
    } catch {
      // The browser stores nothing.
      return null;
    }
  };
  const html = document.documentElement;
  const light = read("chockside.light");
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  html.dataset.mode = ["sun", "indoor", "night"].includes(light) ? light : dark ? "night" : "sun";
  // Same bounds as in net/millimetre.ts.
  const mm = Number(read("chockside.mm") ?? Number.NaN);
  if (mm >= 1.5 && mm <= 8) html.style.setProperty("--mm-here", `${mm}px`);
})();
