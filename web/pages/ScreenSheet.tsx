import { boundedMm, keepMm, keptMm } from "../net/millimetre.ts";
import { ScreenEntry } from "../ui/ScreenEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { useLaterWords } from "../words/later.ts";

/** Sets the length of a millimetre on this device, for every person and window. */
export function ScreenSheet({ onClose }: { onClose(): void }) {
  return (
    <Sheet title={useLaterWords().screen.title} onClose={onClose}>
      <ScreenEntry
        mm={keptMm()}
        bounded={boundedMm}
        onKeep={(mm) => {
          keepMm(mm);
          onClose();
        }}
      />
    </Sheet>
  );
}
