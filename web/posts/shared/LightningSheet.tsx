import type { Action } from "../../../shared/protocol/commands.ts";
import { flashAwaitingThunder, lightningStop } from "../../../shared/weather/lightning.ts";
import { LightningEntry } from "../../ui/LightningEntry.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import { useLaterWords } from "../../words/later.ts";
import { lightningNote } from "./airNotes.ts";
import type { Panel } from "./model.ts";

type Flash = Omit<Extract<Action, { type: "recordFlash" }>, "type">;

/** A flash, then its distance, each by one touch. */
export function LightningSheet({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const { air: weather, airEntry: air } = useLaterWords();
  const { state, now, me, fresh } = panel;
  const rule = state.type.ramp?.lightning;
  const waiting = flashAwaitingThunder(state, me.id, now);
  const stops = lightningStop(state, now) !== null;
  const say = (flash: Flash) => panel.act({ type: "recordFlash", ...flash });
  const of = waiting ? { of: waiting.seq } : {};
  return (
    <Sheet title={weather.lightningKey} onClose={onClose}>
      <LightningEntry
        since={waiting ? Math.max(0, Math.floor((now - waiting.at) / 1000)) : null}
        stands={lightningNote(state, now, weather) ?? air.noFlash}
        stops={stops}
        rule={rule ? air.rule(rule.stopWithin.value, Math.round(rule.resumeAfter.value / 60)) : air.noRule}
        fresh={fresh}
        onFlash={() => say({})}
        onThunder={(thunderAfterS) => say({ ...of, thunderAfterS })}
        onDistance={(miles) => say({ ...of, miles })}
      />
    </Sheet>
  );
}
