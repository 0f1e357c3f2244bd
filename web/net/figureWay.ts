import { useState } from "react";
import type { FigureWay } from "../ui/figuring.ts";

const KEY = "chockside.figures";

function kept(): FigureWay {
  try {
    return localStorage.getItem(KEY) === "digits" ? "digits" : "steps";
  } catch {
    return "steps";
  }
}

/** Returns how this device enters figures, and a function that changes it for every later entry. */
export function useFigureWay(): [FigureWay, (way: FigureWay) => void] {
  const [way, setWay] = useState(kept);
  const choose = (next: FigureWay) => {
    setWay(next);
    try {
      localStorage.setItem(KEY, next);
    } catch {
      // Without storage the choice lasts until the page closes.
    }
  };
  return [way, choose];
}
