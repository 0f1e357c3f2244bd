import type { AircraftType, Gauge } from "../../../shared/types/schema.ts";
import { typeIn } from "../../../shared/words/authored.ts";
import { unitWord } from "../../../shared/words/units.ts";
import { useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";

/** Length of a scale, and the room beside its ends for half of a figure, in units of the drawing. */
const LENGTH = 380;
const SIDE = 44;

/** The limits of a type at a glance: each gauge on its own scale, the normal band heavy, the limits with their figures. */
export function LimitsCard({ type }: { type: AircraftType }) {
  const words = useTypeWords();
  const { gauges } = typeIn(type, useWords().say.language);
  return (
    <section className="limits-card" aria-label={words.limits}>
      <h2>{words.limits}</h2>
      <p>{words.limitsLead}</p>
      <ul>
        {gauges.map((gauge) => (
          <GaugeLimits key={gauge.id} gauge={gauge} />
        ))}
      </ul>
    </section>
  );
}

function GaugeLimits({ gauge: { name, unit, scale, min, normalLow, normalHigh, max } }: { gauge: Gauge }) {
  const words = useTypeWords();
  const { from, to } = scale;
  const x = (v: number) => SIDE + ((v - from) / (to - from)) * LENGTH;
  const said = words.limitsOf(name, unitWord(unit), { from, to, min, normalLow, normalHigh, max });
  const banded = normalLow !== undefined || normalHigh !== undefined;
  // A lower figure is written to the left of its place and an upper one to the right, so that near ones stay apart.
  const limits = ends(min, max);
  const normal = ends(normalLow, normalHigh).filter(({ at }) => at !== min && at !== max);
  return (
    <li>
      <span className="limits-name">
        <strong>{name}</strong> {unitWord(unit)}
      </span>
      <svg viewBox={`0 0 ${LENGTH + 2 * SIDE} 64`} className="limits-scale" role="img" aria-label={said}>
        <title>{said}</title>
        <line x1={x(from)} y1={32} x2={x(to)} y2={32} className="scale-line" />
        {banded && (
          <line
            x1={x(normalLow ?? from)}
            y1={32}
            x2={x(normalHigh ?? to)}
            y2={32}
            className="limits-normal"
          />
        )}
        {normal.map(({ at, anchor }) => (
          <text key={at} x={x(at)} y={20} textAnchor={anchor} className="limits-figure">
            {at}
          </text>
        ))}
        {limits.map(({ at, anchor }) => (
          <g key={at} className="limits-limit">
            <line x1={x(at)} y1={22} x2={x(at)} y2={44} />
            <text x={x(at)} y={61} textAnchor={anchor} className="limits-figure">
              {at}
            </text>
          </g>
        ))}
      </svg>
    </li>
  );
}

function ends(low: number | undefined, high: number | undefined) {
  return [
    ...(low === undefined ? [] : [{ at: low, anchor: "end" as const }]),
    ...(high === undefined ? [] : [{ at: high, anchor: "start" as const }]),
  ];
}
