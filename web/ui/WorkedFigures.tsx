import { figureWords } from "../../shared/words/figures.ts";
import type { Piece } from "../../shared/words/piece.ts";
import { useWords } from "../words/words.ts";
import { TranslatedText } from "./TranslatedText.tsx";

/** One calculated figure, in words ready for display. */
export interface WorkedRow {
  id: string;
  name: string;
  /** With its unit; a dash when there is no value. */
  value: string;
  /** The value in the figure's own unit, when another unit is shown. */
  own: string | null;
  /** Beside the value: its error, its owner, a comparison. */
  detail: readonly Piece[] | null;
  verdict: "good" | "caution" | "bad" | "unknown" | "none";
  verdictWord: string;
  caution: readonly Piece[] | null;
  inputs: { name: readonly Piece[]; value: string; source: readonly Piece[]; age: string }[];
  equation: readonly Piece[];
  source: readonly Piece[];
}

/** Calculated figures. Each opens to show its inputs with source and age, its equation, and the equation's source. */
export function WorkedFigures({ title, rows }: { title: string; rows: readonly WorkedRow[] }) {
  const { say } = useWords();
  const words = figureWords(say);
  if (rows.length === 0) return null;
  return (
    <section className="worked" aria-label={title}>
      <h3>{title}</h3>
      {rows.map((r) => (
        <details key={r.id} data-verdict={r.verdict}>
          <summary>
            <span className="worked-name">
              {r.name}
              {r.detail && (
                <span className="worked-detail">
                  <TranslatedText pieces={r.detail} />
                </span>
              )}
            </span>
            <span className="worked-value">{r.value}</span>
            <span className="worked-verdict">
              <VerdictShape is={r.verdict} />
              {r.verdictWord}
            </span>
          </summary>
          {r.own && <p className="worked-own">{words.own(r.own)}</p>}
          {r.caution && (
            <p className="worked-caution">
              <TranslatedText pieces={r.caution} />
            </p>
          )}
          <ul>
            {r.inputs.map((i, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: two inputs may share a name, and their order is fixed
              <li key={at}>
                <span className="worked-input">
                  <TranslatedText pieces={i.name} />
                </span>
                <b>{i.value}</b>
                <span className="worked-from">
                  <TranslatedText pieces={i.source} />
                  {i.age && `, ${i.age}`}
                </span>
              </li>
            ))}
          </ul>
          <p className="worked-equation">
            <TranslatedText pieces={r.equation} />
          </p>
          <p className="worked-source">
            <TranslatedText pieces={r.source} />
          </p>
        </details>
      ))}
    </section>
  );
}

function VerdictShape({ is }: { is: WorkedRow["verdict"] }) {
  if (is === "none") return null;
  return (
    <svg viewBox="0 0 20 20" className="condition-shape" aria-hidden="true">
      {is === "good" && <circle cx="10" cy="10" r="8" className="fill" />}
      {is === "caution" && <path d="M10 2l9 16H1z" className="fill" />}
      {is === "bad" && <path d="M3 3l14 14M17 3L3 17" className="line" />}
      {is === "unknown" && <circle cx="10" cy="10" r="7.5" className="line" />}
    </svg>
  );
}
