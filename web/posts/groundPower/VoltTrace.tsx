import { Suspense, useState } from "react";
import { permissionFor } from "../../../shared/session/permissions.ts";
import { later } from "../../ui/later.tsx";
import { useLaterWords } from "../../words/later.ts";
import type { Panel } from "../shared/model.ts";

const Opening = later(() => import("../../ui/Opening.tsx").then((m) => m.Opening));
const TraceEntry = later(() => import("./TraceEntry.tsx").then((m) => m.TraceEntry));

/** Opens the entry of a meter's record of ground power, for a type that judges volts over time. */
export function VoltTrace({ panel }: { panel: Panel }) {
  const [open, setOpen] = useState(false);
  const { state } = panel;
  const { trace: words } = useLaterWords();
  const judged = state.groundPower.is === "on" && state.type.groundPower.transients !== undefined;
  if (!judged || !permissionFor({ type: "giveVoltTrace" }).stages.includes(state.stage)) return null;
  return (
    <section className="options" aria-label={words.title}>
      <h3>{words.title}</h3>
      <Suspense fallback={<div className="keys-to-come" />}>
        <Opening open={open} words={open ? words.close : words.open} look="answer" onOpen={setOpen}>
          <Suspense fallback={null}>
            <TraceEntry
              disabled={!panel.fresh}
              onGive={(action) => {
                if (panel.act(action)) setOpen(false);
              }}
            />
          </Suspense>
        </Opening>
      </Suspense>
    </section>
  );
}
