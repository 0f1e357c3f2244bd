import { boundedMm, keepMm, keptMm } from "../net/millimetre.ts";
import { ScreenEntry } from "../ui/ScreenEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { useWords } from "../words/words.ts";

/** How large everything is drawn on this device, for every person and window of it. */
export function ScreenSheet({ onClose }: { onClose(): void }) {
  return (
    <Sheet title={useWords().text.screen.title} onClose={onClose}>
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
