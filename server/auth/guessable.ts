/** Whether a PIN is among the first anybody tries: one sign or two over and over, or a run of signs up or down. */
export function isGuessable(pin: string): boolean {
  const steps = new Set(
    Array.from({ length: pin.length - 1 }, (_, i) => pin.charCodeAt(i + 1) - pin.charCodeAt(i)),
  );
  if (steps.size === 1 && [...steps].every((s) => Math.abs(s) <= 1)) return true;
  return [1, 2, 3].some(
    (n) =>
      pin ===
      pin
        .slice(0, n)
        .repeat(Math.ceil(pin.length / n))
        .slice(0, pin.length),
  );
}
