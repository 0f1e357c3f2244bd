// Before the first thing is drawn, so that a panel loaded in the dark does not flash bright: the light this device was
// set to, else what its system asks for.
(() => {
  let kept = null;
  try {
    kept = localStorage.getItem("chockside.light");
  } catch {
    // Nothing can be kept here.
  }
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  document.documentElement.dataset.mode = ["sun", "indoor", "night"].includes(kept)
    ? kept
    : dark
      ? "night"
      : "sun";
})();
