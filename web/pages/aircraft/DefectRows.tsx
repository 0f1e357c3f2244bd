import { isDeferred } from "../../../shared/defects/barring.ts";
import { dayAndMinute, dayWords } from "../../../shared/words/dates.ts";
import type { DefectRow } from "../../net/aircraft.ts";
import { useDefectLifeWords } from "../../words/defectLife.ts";
import type { DefectLifeWords } from "../../words/en/defectLife.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

interface Props {
  defects: readonly DefectRow[];
  /** Null where nothing can be done with them. */
  onDo: ((is: "defer" | "close", defect: DefectRow) => void) | null;
}

/** Defects, each with its whole life: written, deferred, closed, by whom, when and why. */
export function DefectRows({ defects, onDo }: Props) {
  const words = useDefectLifeWords();
  const { say } = useWords();
  const { language } = say;
  const when = (at: number) => dayAndMinute(at, language);
  const day = (until: string) => dayWords(Date.parse(until), language);
  return (
    <ul className="register-changes">
      {defects.map((d) => {
        const of = d.closed?.session ?? d.written.session;
        return (
          <li key={d.no} aria-label={d.words}>
            <span className="register-when">
              {d.engine === null ? words.aircraft : words.engine(d.engine)}
              <br />
              {standing(d, words, day)}
            </span>
            <div>
              <strong>{d.words}</strong>
              {d.before > 0 && <p>{words.again(d.before)}</p>}
              <p className="register-why">{words.written(say.person(d.written.name), when(d.written.at))}</p>
              {d.deferrals.map((f) => (
                <p key={f.at} className="register-why">
                  {words.deferred(say.person(f.name), when(f.at), day(f.until), f.reason)}
                </p>
              ))}
              {d.closed && (
                <p className="register-why">
                  {words.closed(d.closed.name && say.person(d.closed.name), when(d.closed.at))}
                  {d.closed.reason !== null && `: ${d.closed.reason}`}
                </p>
              )}
              <div className="head-keys">
                {of !== null && (
                  <button type="button" className="small-key" onClick={() => go(`/session/${of}/record`)}>
                    {words.session}
                  </button>
                )}
                {onDo && d.barsStart && (
                  <button type="button" className="small-key" onClick={() => onDo("defer", d)}>
                    {words.defer}
                  </button>
                )}
                {onDo && (
                  <button type="button" className="small-key" onClick={() => onDo("close", d)}>
                    {words.close}
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
function standing(d: DefectRow, words: DefectLifeWords, day: (until: string) => string): string | null {
  if (d.closed) return null;
  if (!d.barsStart) return words.barsNot;
  const last = d.deferrals.at(-1);
  if (!last) return words.bars;
  return isDeferred({ deferred: last }, Date.now())
    ? words.deferredTo(day(last.until))
    : words.deferralOver(day(last.until));
}
