import { UNIT_SHEET_WORDS } from "../../shared/words/units.ts";
import { useUnitChoice } from "../net/app.ts";
import { Sheet } from "../ui/Sheet.tsx";
import { UnitsEntry } from "../ui/UnitsEntry.tsx";

/** The units of the person signed in, kept on this device. */
export function UnitsSheet({ onClose }: { onClose(): void }) {
  const [choice, choose] = useUnitChoice();
  return (
    <Sheet title={UNIT_SHEET_WORDS.title} onClose={onClose}>
      <UnitsEntry choice={choice} onChoose={choose} />
    </Sheet>
  );
}
