import { useEffect, useState } from "react";
import type { Comparison } from "../../../shared/rehearsal/measures.ts";
import { sayCompared, whyNotCompared } from "../../../shared/words/compared.ts";
import { debriefWords } from "../../../shared/words/debrief.ts";
import { rehearsals } from "../../net/rehearsals.ts";
import { Trouble } from "../../ui/Trouble.tsx";
import { useWords } from "../../words/words.ts";

/** A rehearsal that is over beside the last runs of the same people. */
export function BesideLast({ id }: { id: string }) {
  const { say } = useWords();
  const [compared, setCompared] = useState<Comparison | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  useEffect(() => {
    rehearsals.compared(id).then(setCompared, setTrouble);
  }, [id]);
  if (!compared) return <Trouble of={trouble} />;
  const words = debriefWords(say.language);
  const not = whyNotCompared(compared, say);
  return (
    <section aria-label={words.compared}>
      <h3>{words.compared}</h3>
      <p>{not ?? words.comparedLead}</p>
      {compared.people.map((person) => {
        const { title, none, heads, rows } = sayCompared(person, say);
        if (none !== null) return <p key={title}>{`${title}: ${none}`}</p>;
        return (
          <div key={title} className="compared">
            <table>
              <caption>{title}</caption>
              <thead>
                <tr>
                  <th scope="col">{words.measure}</th>
                  {heads.map((head) => (
                    <th key={head} scope="col">
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rows.map(({ measure, cells }) => (
                  <tr key={measure}>
                    <th scope="row">{measure}</th>
                    {heads.map((head, i) => (
                      <td key={head}>{cells[i]}</td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        );
      })}
    </section>
  );
}
