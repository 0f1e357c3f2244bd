import type { AircraftType } from "../../../shared/types/schema.ts";
import { Aircraft } from "../../ui/plan/Aircraft.tsx";
import { drawingOf, WIDTH } from "../../ui/plan/geometry.ts";
import { useTypeWords } from "../../words/types.ts";
import { LimitsCard } from "./LimitsCard.tsx";
import { type TypeNames, useTypeNames } from "./names.ts";
import { type Row, rowsOf } from "./rows.ts";

/** Fields shown at the head of the page. */
const IN_HEAD = new Set(["id", "version", "name", "author", "approvedBy", "note"]);

/** A whole type, section by section: every figure with its unit, its source and the basis of that source. */
export function TypeReading({ type }: { type: AircraftType }) {
  const words = useTypeWords();
  const names = useTypeNames();
  const sections = Object.entries(type).filter(([name]) => !IN_HEAD.has(name));
  return (
    <>
      <p className="type-note" lang="en">
        {type.note}
      </p>
      <div className="type-top">
        <Drawing type={type} />
        <nav className="section-keys" aria-label={words.sections}>
          {sections.map(([name]) => (
            <a key={name} href={`#section-${name}`}>
              {names.name(name)}
            </a>
          ))}
        </nav>
      </div>
      <LimitsCard type={type} />
      {sections.map(([name, value]) => (
        <section key={name} id={`section-${name}`} className="type-section">
          <h2>{names.name(name)}</h2>
          <table>
            <thead>
              <tr>
                <th scope="col">{words.what}</th>
                <th scope="col">{words.figure}</th>
                <th scope="col">{words.source}</th>
              </tr>
            </thead>
            <tbody>
              {rowsOf(value, isPlain(value) ? names.name(name) : "", name, names).map((row) => (
                <Line key={row.key} row={row} names={names} />
              ))}
            </tbody>
          </table>
        </section>
      ))}
    </>
  );
}

/** True for a value shown on one line, labelled with the section's name. */
function isPlain(value: unknown): boolean {
  if (Array.isArray(value)) return value.every((v) => typeof v !== "object");
  if (typeof value !== "object" || value === null) return true;
  if ("value" in value || "basis" in value) return true;
  return Object.entries(value).every(([name, v]) => name === "source" || typeof v !== "object");
}

function Line({ row, names }: { row: Row; names: TypeNames }) {
  const words = useTypeWords();
  return (
    <tr data-depth={Math.min(row.depth, 4)} data-heading={row.value === null || undefined}>
      <th scope="row">{row.label}</th>
      <td className="type-figure">{row.value}</td>
      <td className="type-source">
        {row.source && (
          <>
            <strong data-basis={row.source.basis}>{names.value(row.source.basis)}</strong>{" "}
            <span lang="en">{[row.source.text, row.source.page].filter(Boolean).join(", ")}</span>
            {row.source.by !== undefined && <small> {words.enteredBy(row.source.by)}</small>}
          </>
        )}
      </td>
    </tr>
  );
}

function Drawing({ type }: { type: AircraftType }) {
  const d = drawingOf(type, "forward");
  const engines = type.engines.map((e) => ({
    ...{ n: e.n, x: e.x, y: e.y, word: "", shape: "none" as const, count: null },
    ...{ over: false, turning: false, asked: false },
  }));
  const power = { is: "unknown" as const, words: "" };
  const words = useTypeWords().drawn(type.plan.span, type.plan.length);
  return (
    <figure className="plan">
      <svg viewBox={`0 0 ${WIDTH} ${d.height.toFixed(0)}`} role="img" aria-label={words}>
        <title>{words}</title>
        <Aircraft view={{ type, engines, guardAt: null, chocks: "unknown", power, cart: false }} d={d} />
        {type.engines.map((e) => {
          const p = d.at(e.x, e.y);
          return (
            <text key={e.n} x={p.x} y={p.y - 14} textAnchor="middle" className="type-engine">
              {e.n}
            </text>
          );
        })}
      </svg>
      <figcaption className="plan-caption">
        <span>{words}</span>
      </figcaption>
    </figure>
  );
}
