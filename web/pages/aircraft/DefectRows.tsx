import { startsLeft } from "../../../shared/defects/barring.ts";
import { endOf } from "../../../shared/house/due.ts";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { deferralWords } from "../../../shared/words/deferral.ts";
import type { Language } from "../../../shared/words/language.ts";
import type { DefectRow } from "../../net/aircraft.ts";
import { AddPicture } from "../../posts/shared/AddPicture.tsx";
import { useDefectLifeWords } from "../../words/defectLife.ts";
import type { DefectLifeWords } from "../../words/en/defectLife.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import type { DefectDoing } from "./DefectAct.tsx";
import { DefectPictures } from "./DefectPictures.tsx";

interface Props {
  aircraft: string;
  defects: readonly DefectRow[];
  /** True for those who remove pictures. */
  supervisor: boolean;
  /** Called when a defect has other pictures than before. */
  onPictures(): void;
  onTrouble(error: Error): void;
  /** Null where nothing can be done with them. */
  onDo: ((is: DefectDoing, defect: DefectRow) => void) | null;
}

/** Defects, each with its whole life: written, deferred, mended, inspected, closed, by whom, when and why. */
export function DefectRows({ aircraft, defects, supervisor, onDo, onPictures, onTrouble }: Props) {
  const words = useDefectLifeWords();
  const { say } = useWords();
  const { language } = say;
  const when = (at: number) => dayAndMinute(at, language);
  return (
    <ul className="register-changes">
      {defects.map((d) => {
        const of = d.closed?.session ?? d.written.session;
        return (
          <li key={d.no} aria-label={d.words}>
            <span className="register-when">
              {d.engine === null ? words.aircraft : words.engine(d.engine)}
              <br />
              {standing(d, words, language)}
            </span>
            <div>
              <strong>{d.words}</strong>
              {d.before > 0 && <p>{words.again(d.before)}</p>}
              <p className="register-why">{words.written(say.person(d.written.name), when(d.written.at))}</p>
              {d.deferrals.map((f) => (
                <p key={f.at} className="register-why">
                  {words.deferred(
                    say.person(f.name),
                    when(f.at),
                    deferralWords(f.until, f.starts, language),
                    f.reason,
                  )}
                </p>
              ))}
              {d.startedSince.length > 0 && (
                <p className="register-why">{words.used(d.startedSince.length)}</p>
              )}
              {d.mendings.map((m) => (
                <p key={m.at} className="register-why">
                  {words.mended(say.person(m.name), when(m.at), m.reason)}
                </p>
              ))}
              {d.closed && (
                <p className="register-why">
                  {d.closed.inspected && d.closed.name !== null
                    ? words.inspected(say.person(d.closed.name), when(d.closed.at))
                    : words.closed(d.closed.name && say.person(d.closed.name), when(d.closed.at))}
                  {d.closed.reason !== null && `: ${d.closed.reason}`}
                </p>
              )}
              <DefectPictures
                {...{ aircraft, onTrouble }}
                defect={d}
                onRemoved={supervisor ? onPictures : null}
              />
              {d.closed === null && <AddPicture aircraft={aircraft} defect={d} onAdded={onPictures} />}
              <div className="head-keys">
                {of !== null && (
                  <button type="button" className="small-key" onClick={() => go(`/session/${of}/record`)}>
                    {words.session}
                  </button>
                )}
                {onDo && d.mendings.length > 0 && (
                  <button
                    type="button"
                    className="small-key"
                    data-tone="yes"
                    onClick={() => onDo("inspect", d)}
                  >
                    {words.inspect}
                  </button>
                )}
                {onDo && d.barsStart && d.mendings.length === 0 && (
                  <button type="button" className="small-key" onClick={() => onDo("defer", d)}>
                    {words.defer}
                  </button>
                )}
                {onDo && (
                  <button type="button" className="small-key" onClick={() => onDo("close", d)}>
                    {d.mendings.length > 0 ? words.mendAnew : words.close}
                  </button>
                )}
              </div>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** Returns whether an open defect blocks a start now; nothing for a closed one. */
function standing(d: DefectRow, words: DefectLifeWords, language: Language): string | null {
  if (d.closed) return null;
  if (d.mendings.length > 0) return d.barsStart ? words.toInspectBars : words.toInspect;
  if (!d.barsStart) return words.barsNot;
  const last = d.deferrals.at(-1);
  if (!last) return words.bars;
  const { until, starts } = last;
  const left = starts === null ? null : startsLeft({ starts }, d.startedSince);
  const isOver = left === 0 || (until !== null && Date.now() >= endOf(until));
  return isOver
    ? words.deferralOver(deferralWords(until, starts, language))
    : words.deferredTo(deferralWords(until, left, language));
}
