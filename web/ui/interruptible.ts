import { startTransition } from "react";
import { allHere } from "./later.tsx";

/**
 * Draws what a touch may interrupt. While a part of the program still loads it is drawn at once: React would keep the
 * old picture until that part has come, and a panel must not show what is no longer so.
 */
export function interruptible(draw: () => void): void {
  if (allHere()) startTransition(draw);
  else draw();
}
