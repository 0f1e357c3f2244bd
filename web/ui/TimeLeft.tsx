import { useWords } from "../words/words.ts";
import { seconds, secondsLeft } from "./numbers.ts";

/** Time left to a limit as a figure and a bar; past the limit, the time over it. */
export function TimeLeft({
  since,
  dueAt,
  now,
  of,
}: {
  since: number | null;
  dueAt: number;
  now: number;
  of: string;
}) {
  const { ask } = useWords().text;
  const left = dueAt - now;
  const over = left <= 0;
  const whole = since === null ? null : dueAt - since;
  const part = whole === null || whole <= 0 ? null : Math.min(1, Math.max(0, left / whole));
  return (
    <div className="time-left" data-over={over || undefined}>
      <span className="time-figure">{over ? seconds(-left) : secondsLeft(left)}</span>
      <span className="time-words">{over ? ask.past(of) : ask.left(of)}</span>
      {part !== null && (
        <svg viewBox="0 0 100 4" preserveAspectRatio="none" className="time-line" aria-hidden="true">
          <line x1="0" y1="2" x2="100" y2="2" className="time-whole" />
          <line x1="0" y1="2" x2={100 * part} y2="2" className="time-part" />
        </svg>
      )}
    </div>
  );
}
