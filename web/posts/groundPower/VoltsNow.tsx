import { groundPowerKnown } from "../../../shared/conditions/power.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import "../../styles/voltsNow.css";
import { ago } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import type { Panel } from "../shared/model.ts";

/** The volts as last read, very large, with their age: what this post watches whatever else is asked. */
export function VoltsNow({ panel }: { panel: Panel }) {
  const { state, now } = panel;
  const { volts: words } = useLaterWords();
  const units = useUnits();
  const { groundPower: power } = state;
  if (state.powerSource !== "groundPower" || power.is === "unknown")
    return (
      <section className="volts-now" aria-label={words.region} data-is="unknown">
        <output>–</output>
        <p>{state.powerSource === "groundPower" ? words.notRead : words.batteries}</p>
      </section>
    );
  const age = ago(now - power.by.at, panel.words.text);
  if (power.is === "off")
    return (
      <section className="volts-now" aria-label={words.region} data-is="off">
        <output>{words.off}</output>
        <p>{words.offSaid(age)}</p>
      </section>
    );
  const old = groundPowerKnown.find(state, 0, now).is === "stale";
  return (
    <section className="volts-now" aria-label={words.region} data-is={old ? "old" : "on"}>
      <output>{writtenBoth(power.volts, units)}</output>
      <p>{old ? words.old(age) : words.said(age)}</p>
    </section>
  );
}
