import { useLaterWords } from "../words/later.ts";
import { Choice } from "./Choice.tsx";
import type { FigureWay } from "./figuring.ts";

/** Chooses between digits and steps for every entry on this device. */
export function FigureWayKeys({ way, onWay }: { way: FigureWay; onWay(way: FigureWay): void }) {
  const { pad } = useLaterWords();
  return (
    <Choice
      label={pad.way}
      chosen={way}
      options={[
        { is: "digits", words: pad.digits },
        { is: "steps", words: pad.steps },
      ]}
      className="way-keys"
      classNameOfKeys="unit-key"
      onChoose={onWay}
    />
  );
}
