import { useCallback, useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { type OwnSignIn, people } from "../../net/people.ts";
import { usePersonWords } from "../../words/person.ts";
import { useWords } from "../../words/words.ts";

/** This person's sign-ins, with a key to end each of the others. */
export function OwnSignIns({ onTrouble }: { onTrouble(error: Error): void }) {
  const words = usePersonWords();
  const { language } = useWords().say;
  const [rows, setRows] = useState<OwnSignIn[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once, and after each key
  const read = useCallback(() => void people.signIns().then(setRows, onTrouble), []);
  useEffect(read, [read]);
  return (
    <section className="own" aria-label={words.signIns}>
      <h2>{words.signIns}</h2>
      <ul className="device-rows">
        {rows.map((row) => (
          <li key={row.id} aria-label={row.deviceName}>
            <strong>{row.deviceName}</strong>
            <span>
              {words.since(dayAndMinute(row.createdAt, language), dayAndMinute(row.usedAt, language))}
            </span>
            {row.here ? (
              <span>{words.here}</span>
            ) : (
              <button
                type="button"
                className="small-key"
                onClick={() => void people.endSignIn(row.id).then(read, onTrouble)}
              >
                {words.end}
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
