/**
 * Returns the code in the address, and removes it there. It stands after a #, because browsers send that part to
 * nobody.
 */
export function codeInAddress(): string {
  const code = decodeURIComponent(location.hash.slice(1));
  if (code) history.replaceState(null, "", location.pathname);
  return code;
}
