import "../../styles/rehearsalStrip.css";
import { useState } from "react";
import type { Stage } from "../../../shared/protocol/stages.ts";
import { rehearsals } from "../../net/rehearsals.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { useRenewed } from "../useRenewed.ts";

type Row = Awaited<ReturnType<typeof rehearsals.list>>[number];

/** The rehearsals that run. Empty where there is none. */
export function RehearsalList({ changed }: { changed: number }) {
  const words = useRehearsalWords();
  const { say, text } = useWords();
  const [rows, setRows] = useState<Row[]>([]);
  useRenewed(changed, () => {
    rehearsals.list().then(setRows, () => undefined);
  });
  const open = rows.filter(({ stage }) => stage !== "closed" && stage !== "abandoned");
  if (open.length === 0) return null;
  return (
    <section className="board" aria-label={words.list}>
      <h2>{words.list}</h2>
      <ul className="rehearsal-scripts">
        {open.map((row) => (
          <li key={row.id}>
            <button type="button" className="small-key" onClick={() => go(`/session/${row.id}`)}>
              <strong>{`${text.title.rehearsal} ${row.code}`}</strong>
              <span>{`${row.typeName}, ${say.stage(row.stage as Stage)}`}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
