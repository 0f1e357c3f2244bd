import type { AircraftType } from "../../../shared/types/schema.ts";
import { box, drawingOf, fuselage, nacelle, tailplane, WIDTH, wing } from "../../ui/plan/geometry.ts";
import { useTypeWords } from "../../words/types.ts";

type Members = Readonly<Record<string, unknown>>;

/** The aircraft drawn from the figures that are entered so far. It grows with each of them. */
export function DrawnSoFar({ entered }: { entered: Members }) {
  const words = useTypeWords();
  const plan = members(entered.plan);
  const [span, length] = [positive(plan.span), positive(plan.length)];
  if (span === null || length === null) return <p className="drawn-nothing">{words.drawnNothing}</p>;
  const engines = list(entered.engines).flatMap((e) => {
    const [n, x, y] = [finite(e.n), finite(e.x), finite(e.y)];
    return n === null || x === null || y === null ? [] : [{ n, x, y, accessories: [] }];
  });
  const diameter = positive(members(entered.propeller).diameter);
  // Only the measures that the drawing reads, all of them entered.
  const type = {
    plan: { span, length },
    engines,
    propeller: { diameter: diameter ?? 0 },
  } as unknown as AircraftType;
  const d = drawingOf(type, "forward");
  const [gear, track] = [finite(plan.mainGearX), positive(plan.gearTrack)];
  const plug = members(plan.receptacle);
  const [plugX, plugY] = [finite(plug.x), finite(plug.y)];
  const size = length * 0.016;
  return (
    <figure className="drawn-so-far">
      <svg viewBox={`0 0 ${WIDTH} ${d.height.toFixed(0)}`} role="img" aria-label={words.drawnSoFar}>
        <title>{words.drawnSoFar}</title>
        <g fill="none" stroke="var(--ink)" strokeWidth={3} strokeLinejoin="round">
          {engines.length > 0 && <path d={wing(type, d, 1)} className="plan-skin" />}
          {engines.length > 0 && <path d={wing(type, d, -1)} className="plan-skin" />}
          <path d={tailplane(type, d)} className="plan-skin" />
          <path d={fuselage(type, d)} className="plan-skin" />
          {engines.map((e) => (
            <g key={e.n}>
              {diameter !== null && <path d={nacelle(type, d, e)} className="plan-skin" />}
              <circle cx={d.at(e.x, e.y).x} cy={d.at(e.x, e.y).y} r={8} />
              {diameter !== null && (
                <line
                  x1={d.at(e.x, e.y - diameter / 2).x}
                  y1={d.at(e.x, e.y).y}
                  x2={d.at(e.x, e.y + diameter / 2).x}
                  y2={d.at(e.x, e.y).y}
                  strokeWidth={5}
                />
              )}
            </g>
          ))}
          {gear !== null &&
            track !== null &&
            [-1, 1].map((side) => (
              <rect
                key={side}
                {...box(
                  d,
                  gear - size,
                  (side * track) / 2 - size * 0.55,
                  gear + size,
                  (side * track) / 2 + size * 0.55,
                )}
                fill="var(--ink)"
              />
            ))}
          {plugX !== null && plugY !== null && (
            <rect {...box(d, plugX - size, plugY - size, plugX + size, plugY + size)} strokeWidth={4} />
          )}
        </g>
        {engines.map((e) => (
          <text
            key={e.n}
            x={d.at(e.x, e.y).x}
            y={d.at(e.x, e.y).y - 18}
            textAnchor="middle"
            className="type-engine"
          >
            {e.n}
          </text>
        ))}
      </svg>
    </figure>
  );
}

const members = (v: unknown): Members =>
  typeof v === "object" && v !== null && !Array.isArray(v) ? (v as Members) : {};
const list = (v: unknown): Members[] => (Array.isArray(v) ? v.map(members) : []);
const finite = (v: unknown): number | null => (typeof v === "number" && Number.isFinite(v) ? v : null);
const positive = (v: unknown): number | null => {
  const n = finite(v);
  return n !== null && n > 0 && n <= 150 ? n : null;
};
