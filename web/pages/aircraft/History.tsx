import { changesOf } from "../../../shared/house/changes.ts";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import type { RegisterChange } from "../../net/aircraft.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useWords } from "../../words/words.ts";

/** Every state of an aircraft in the register, the newest first: when, by whom, why, and what it changed. */
export function History({ changes }: { changes: readonly RegisterChange[] }) {
  const words = useRegisterWords();
  const { language } = useWords().say;
  const programs: Readonly<Record<string, string>> = words.programs;
  return (
    <section className="own" aria-label={words.history}>
      <h2>{words.history}</h2>
      <ol className="register-changes">
        {changes.map(({ revision, at, by, reason, body }, i) => {
          const before = changes[i + 1];
          const changed = before ? changesOf(before.body, body).map(words.changed) : [words.entered];
          return (
            <li key={revision}>
              <span className="register-when">
                {words.by(programs[by] ?? by, dayAndMinute(at, language))}
              </span>
              <span>{changed.length > 0 ? changed.join("; ") : words.changedNothing}</span>
              {reason !== null && <span className="register-why">{reason}</span>}
            </li>
          );
        })}
      </ol>
    </section>
  );
}
