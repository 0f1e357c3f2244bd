import { useUnitChoice } from "../net/app.ts";
import { Sheet } from "../ui/Sheet.tsx";
import { UnitsEntry } from "../ui/UnitsEntry.tsx";
import { useLaterWords } from "../words/later.ts";

/** Sets the units of the signed-in person, kept on this device. */
export function UnitsSheet({ onClose }: { onClose(): void }) {
  const [choice, choose] = useUnitChoice();
  return (
    <Sheet title={useLaterWords().units.title} onClose={onClose}>
      <UnitsEntry choice={choice} onChoose={choose} />
    </Sheet>
  );
}
