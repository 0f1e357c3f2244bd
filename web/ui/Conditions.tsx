import { useLaterWords } from "../words/later.ts";

export interface ConditionRow {
  id: string;
  name: string;
  is: "yes" | "no" | "stale" | "unknown" | "overridden";
  words: string;
  /** The person who reported it, and its age. */
  by: string;
  /** Posts that can meet the condition. */
  owners: string;
  /** Opens setting it aside; null where the type does not allow that. */
  onSetAside: (() => void) | null;
}

/** The conditions of a clearance: each with its state, the person who reported it and its age. */
export function Conditions({ title, rows }: { title: string; rows: readonly ConditionRow[] }) {
  const words = useLaterWords().supervisor;
  return (
    <section className="conditions" aria-label={title}>
      <h3>{title}</h3>
      <table>
        <thead className="visually-hidden">
          <tr>
            <th>{words.answer}</th>
            <th>{words.condition}</th>
            <th>{words.who}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.id} data-is={r.is}>
              <td className="condition-mark">
                <ConditionShape is={r.is} />
                {words.marks[r.is]}
              </td>
              <td>
                {r.words}
                {r.onSetAside && (
                  <button type="button" className="small-key condition-key" onClick={r.onSetAside}>
                    {words.setAside}
                  </button>
                )}
              </td>
              <td className="condition-by">
                {r.is === "yes" ? r.by : r.by ? `${r.by}; ${r.owners}` : r.owners}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function ConditionShape({ is }: { is: ConditionRow["is"] }) {
  return (
    <svg viewBox="0 0 20 20" className="condition-shape" aria-hidden="true">
      {is === "yes" && <circle cx="10" cy="10" r="8" className="fill" />}
      {is === "no" && <path d="M3 3l14 14M17 3L3 17" className="line" />}
      {is === "stale" && <path d="M10 2l9 16H1z" className="fill" />}
      {is === "overridden" && <path d="M2 2h16v16H2zM2 18L18 2" className="line" />}
      {is === "unknown" && <circle cx="10" cy="10" r="7.5" className="line" />}
    </svg>
  );
}
