// Before the first thing is drawn, so that a panel loaded in the dark does not flash bright and none changes its size:
// the light this device was set to, else what its system asks for; and how large a millimetre was found to be here.
(() => {
  const read = (key) => {
    try {
      return localStorage.getItem(key);
    } catch {
      // Nothing can be kept here.
      return null;
    }
  };
  const html = document.documentElement;
  const light = read("chockside.light");
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  html.dataset.mode = ["sun", "indoor", "night"].includes(light) ? light : dark ? "night" : "sun";
  // The same bounds as in net/millimetre.ts.
  const mm = Number(read("chockside.mm") ?? Number.NaN);
  if (mm >= 1.5 && mm <= 8) html.style.setProperty("--mm-here", `${mm}px`);
})();
