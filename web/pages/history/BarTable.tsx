import type { CSSProperties } from "react";
import { useHouseStartsWords } from "../../words/houseStarts.ts";

/** One line of the table: what it is about, and its figures in the order of the columns. */
export interface BarRow {
  key: string;
  name: string;
  figures: readonly string[];
  /** The length of its bar, in the measure of the first column. */
  size: number;
}

interface Props {
  title: string;
  /** Sentences below the title. */
  said?: readonly string[];
  /** The name of the first column, and those of the figures. */
  of: string;
  columns: readonly string[];
  rows: readonly BarRow[];
}

/** One question: a table whose lines have a bar as long as their first figure. The bars say nothing that it does not. */
export function BarTable({ title, said = [], of, columns, rows }: Props) {
  const words = useHouseStartsWords();
  const largest = Math.max(...rows.map((r) => r.size), 0);
  return (
    <section className="own" aria-label={title}>
      <h2>{title}</h2>
      {said.map((line) => (
        <p key={line} className="history-quiet">
          {line}
        </p>
      ))}
      {rows.length === 0 ? (
        <p className="history-quiet">{words.none}</p>
      ) : (
        <div className="history-scroll">
          <table className="bar-table">
            <thead>
              <tr>
                {[of, ...columns].map((name) => (
                  <th key={name} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map(({ key, name, figures, size }) => (
                <tr key={key}>
                  <th scope="row">
                    <span className="bar-name">
                      <span>{name}</span>
                      <span
                        className="bar-line"
                        aria-hidden="true"
                        style={{ "--part": largest > 0 ? size / largest : 0 } as CSSProperties}
                      />
                    </span>
                  </th>
                  {figures.map((figure, i) => (
                    <td key={columns[i]} className="history-figure">
                      {figure}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}
