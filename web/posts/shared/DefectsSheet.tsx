import { Suspense, useState } from "react";
import { isDeferred, startsLeft } from "../../../shared/defects/barring.ts";
import { isRehearsedAircraft } from "../../../shared/protocol/rehearsal.ts";
import type { Defect } from "../../../shared/session/state.ts";
import { deferralWords } from "../../../shared/words/deferral.ts";
import { later } from "../../ui/later.tsx";
import { ago } from "../../ui/numbers.ts";
import { ReasonEntry } from "../../ui/ReasonEntry.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import { useLaterWords } from "../../words/later.ts";
import { useWords } from "../../words/words.ts";
import type { Panel } from "./model.ts";
import { WriteDefect } from "./WriteDefect.tsx";

const AddPicture = later(() => import("./AddPicture.tsx").then((m) => m.AddPicture));

/** The aircraft's open defects. Everybody reads them, any post writes one, the supervisor closes one with a reason. */
export function DefectsSheet({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const [writing, setWriting] = useState(false);
  const [closing, setClosing] = useState<Defect | null>(null);
  const words = useLaterWords().defects;
  const { defects } = panel.state;
  return (
    <Sheet title={words.title(defects.length)} onClose={onClose}>
      {writing && (
        <WriteDefect
          engines={panel.state.engines.map((e) => e.n)}
          fresh={panel.fresh}
          onWrite={(defect) => panel.act({ type: "writeDefect", ...defect })}
          onDone={() => setWriting(false)}
        />
      )}
      {closing && (
        <ReasonEntry
          prompt={`${closing.words}. ${words.whyClosed}`}
          usual={words.usualClosed}
          word={words.close}
          disabled={!panel.fresh}
          onEnter={(reason) => {
            panel.act({ type: "closeDefect", defect: closing.id, reason });
            setClosing(null);
          }}
          onBack={() => setClosing(null)}
        />
      )}
      {!writing && !closing && (
        <>
          {defects.length === 0 && <p>{words.none}</p>}
          <ul className="defects">
            {defects.map((d) => (
              <DefectRow
                key={d.id}
                defect={d}
                now={panel.now}
                aircraft={
                  panel.post !== null && !isRehearsedAircraft(panel.state.aircraft)
                    ? panel.state.aircraft
                    : null
                }
                onCloseIt={panel.post === "supervisor" && panel.fresh ? () => setClosing(d) : null}
              />
            ))}
          </ul>
          {panel.post !== null && (
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={!panel.fresh}
              onClick={() => setWriting(true)}
            >
              {words.write}
            </button>
          )}
        </>
      )}
    </Sheet>
  );
}

interface RowProps {
  defect: Defect;
  /** The aircraft to which pictures can be added; null for none. */
  aircraft: string | null;
  now: number;
  onCloseIt: (() => void) | null;
}

function DefectRow({ defect: d, aircraft, now, onCloseIt }: RowProps) {
  const { text, say } = useWords();
  const words = useLaterWords().defects;
  const bars = !d.barsStart
    ? words.barsNot
    : d.deferred !== undefined && isDeferred(d, now)
      ? words.deferred(
          deferralWords(d.deferred.until ?? null, startsLeft(d.deferred, d.startedSince), say.language),
          say.person(d.deferred.by.name),
        )
      : words.bars;
  return (
    <li data-bars={(d.barsStart && !isDeferred(d, now)) || undefined}>
      <span className="defect-where">{d.engine === null ? words.aircraft : words.engine(d.engine)}</span>
      <strong>{d.words}</strong>
      <span className="defect-bars">{bars}</span>
      {d.mended && <span className="defect-by">{words.mended(say.person(d.mended.by.name))}</span>}
      <span className="defect-by">{words.by(d.by.name, ago(now - d.by.at, text))}</span>
      {onCloseIt && d.mended === undefined && (
        <button type="button" className="small-key" onClick={onCloseIt}>
          {words.close}
        </button>
      )}
      {aircraft !== null && (
        <Suspense fallback={null}>
          <AddPicture aircraft={aircraft} defect={d} />
        </Suspense>
      )}
    </li>
  );
}
