import { useLaterWords } from "../words/later.ts";
import type { FigureWay } from "./figuring.ts";

/** Changes between digits and steps for every entry on this device. The key names the other way. */
export function FigureWayKey({ way, onWay }: { way: FigureWay; onWay(way: FigureWay): void }) {
  const { pad } = useLaterWords();
  const other = way === "digits" ? "steps" : "digits";
  return (
    <button type="button" className="answer" data-tone="plain" onClick={() => onWay(other)}>
      {pad.by[other]}
    </button>
  );
}
