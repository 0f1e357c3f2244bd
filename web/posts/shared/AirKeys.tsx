import { Suspense, useState } from "react";
import { mayDo, permissionFor } from "../../../shared/session/permissions.ts";
import { isOver } from "../../../shared/session/state.ts";
import { later } from "../../ui/later.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { lightningNote, windNote } from "./airNotes.ts";
import type { Panel } from "./model.ts";
import "../../styles/air.css";

const LightningSheet = later(() => import("./LightningSheet.tsx").then((m) => m.LightningSheet));
const WeatherEntry = later(() => import("../../ui/WeatherEntry.tsx").then((m) => m.WeatherEntry));

/** The current weather and lightning, and the reports of either that this post may send without being asked. */
export function AirKeys({ panel }: { panel: Panel }) {
  const { air } = useLaterWords();
  const { state, post, now, fresh } = panel;
  const units = useUnits();
  const [open, setOpen] = useState<"weather" | "lightning" | null>(null);
  if (post === null || isOver(state)) return null;
  const may = (type: "recordWeather" | "recordFlash") => {
    const permission = permissionFor({ type });
    return mayDo(permission, post) && permission.stages.includes(state.stage);
  };
  const close = () => setOpen(null);
  const lightning = lightningNote(state, now, air);
  return (
    <section className="options" aria-label={air.section}>
      <h3>{air.section}</h3>
      <p>{windNote(state, now, units, air) ?? air.notRead}</p>
      {lightning && <p className="lightning-stands" data-stops="true">{`${lightning}.`}</p>}
      <div className="option-keys">
        {may("recordWeather") && (
          <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("weather")}>
            {air.weatherKey}
          </button>
        )}
        {may("recordFlash") && (
          <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("lightning")}>
            {air.lightningKey}
          </button>
        )}
      </div>
      {open === "weather" && (
        <Sheet title={air.report} onClose={close}>
          <Suspense>
            <WeatherEntry
              now={now}
              mostAge={state.type.timing.weather.value * 1000}
              first="report"
              disabled={!fresh}
              onEnter={(weather) => {
                panel.act({ ...weather, type: "recordWeather" });
                close();
              }}
              onBack={close}
            />
          </Suspense>
        </Sheet>
      )}
      {open === "lightning" && (
        <Suspense fallback={null}>
          <LightningSheet panel={panel} onClose={close} />
        </Suspense>
      )}
    </section>
  );
}
