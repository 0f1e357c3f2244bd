import { Suspense } from "react";
import { EngineKeys } from "../../ui/EngineKeys.tsx";
import { later } from "../../ui/later.tsx";
import { useNowOpen } from "../../ui/opened.ts";
import { Sheet } from "../../ui/Sheet.tsx";
import type { Panel } from "./model.ts";
import { isLocated } from "./openFire.ts";
import type { StopKeys } from "./useStops.ts";

/** Loaded after the first picture: the fire is sent without it. */
const FireSheet = later(() => import("./FireSheet.tsx").then((m) => m.FireSheet));

interface Props {
  panel: Panel;
  keys: StopKeys;
  /** Engine numbers in the order on screen. */
  numbers: readonly number[];
}

/** The sheet that a stop key opened: which engine to cut, or where a fire burns. */
export function StopSheets({ panel, keys, numbers }: Props) {
  const { opened } = keys;
  const now = useNowOpen(opened);
  const { stops } = panel.words.text;
  if (now === null) return null;
  if (now.is === "cut")
    return (
      <Sheet title={stops.cutWhich} atOnce onClose={opened.close}>
        <EngineKeys
          numbers={numbers}
          prompt={stops.cutPrompt}
          disabled={false}
          all={{ word: stops.cutAll, onPress: () => keys.cut(null) }}
          onPick={keys.cut}
          onBack={opened.close}
        />
      </Sheet>
    );
  const { fire } = now;
  return (
    <Suspense fallback={null}>
      <FireSheet
        panel={panel}
        numbers={numbers}
        open={fire}
        onSaid={(more) => {
          const next = { ...fire, ...more };
          opened.open(isLocated(next) ? null : { is: "fire", fire: next });
        }}
        onClose={opened.close}
      />
    </Suspense>
  );
}
