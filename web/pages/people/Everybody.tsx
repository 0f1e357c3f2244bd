import { useCallback, useEffect, useState } from "react";
import type { Me } from "../../net/keep.ts";
import { type Anybody, people } from "../../net/people.ts";
import { usePersonWords } from "../../words/person.ts";
import { useWords } from "../../words/words.ts";
import { useCutOff } from "../CutOff.tsx";

/** All people. The office blocks one and admits one again, but nobody themselves. */
export function Everybody({ me, onTrouble }: { me: Me; onTrouble(error: Error): void }) {
  const words = usePersonWords();
  const [rows, setRows] = useState<Anybody[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once, and after each key
  const read = useCallback(() => void people.everybody().then(setRows, onTrouble), []);
  useEffect(read, [read]);
  const { cutOff, section } = useCutOff(onTrouble);
  return (
    <section className="own" aria-label={words.everybody}>
      <h2>{words.everybody}</h2>
      <p>{words.everybodyWhat}</p>
      {section}
      <ul className="device-rows">
        {rows.map((row) => (
          <Row
            key={row.id}
            row={row}
            own={row.id === me.id}
            onSet={(active) => cutOff((sure) => people.setActive(row.id, active, sure), read)}
          />
        ))}
      </ul>
    </section>
  );
}

function Row({ row, own, onSet }: { row: Anybody; own: boolean; onSet(active: boolean): void }) {
  const words = usePersonWords();
  const { say } = useWords();
  const [asked, setAsked] = useState(false);
  const posts = row.mayHold.length > 0 ? row.mayHold.map(say.post).join(", ") : say.post(null);
  return (
    <li aria-label={row.name}>
      <strong>{row.name}</strong>
      <span>
        {row.handle}: {posts}
      </span>
      {!row.active && <span>{words.stopped}</span>}
      {!own && !row.active && (
        <button type="button" className="small-key" onClick={() => onSet(true)}>
          {words.letIn}
        </button>
      )}
      {!own && row.active && (
        <button
          type="button"
          className="small-key"
          onClick={() => (asked ? onSet(false) : setAsked(true))}
          onBlur={() => setAsked(false)}
        >
          {asked ? words.stopSure : words.stop}
        </button>
      )}
    </li>
  );
}
