import { useWords } from "../../words/words.ts";
import { box, breakLines, type Drawing, fuselage, nacelle, tailplane, WIDTH, wing } from "./geometry.ts";
import type { EngineMark, PlanView } from "./planView.ts";

/** Line width of the outline, in drawing units. */
const THIN = 2.5;

/** The drawing of the aircraft: outline, propellers, swept arcs, guard, chocks, cart. */
export function Aircraft({ view, d }: { view: PlanView; d: Drawing }) {
  const { type } = view;
  return (
    <g fill="none" stroke="var(--ink)" strokeWidth={THIN} strokeLinejoin="round">
      <CentreLine d={d} length={type.plan.length} />
      {([1, -1] as const).map((side) => (
        <path key={side} d={wing(type, d, side)} className="plan-skin" />
      ))}
      <path d={tailplane(type, d)} className="plan-skin" />
      <path d={fuselage(type, d)} className="plan-skin" />
      <Break view={view} d={d} />
      {view.engines.map((e) => (
        <EngineShape key={e.n} view={view} engine={e} d={d} />
      ))}
      <Wheels view={view} d={d} />
      {view.cart && <Cart view={view} d={d} />}
      {view.guardAt !== null && <Guard view={view} d={d} at={view.guardAt} />}
    </g>
  );
}

function Break({ view, d }: { view: PlanView; d: Drawing }) {
  const { gap, lines } = breakLines(view.type, d);
  return (
    <g>
      <path d={gap} fill="var(--paper)" stroke="none" />
      {lines.map((line) => (
        <path key={line} d={line} strokeWidth={1.5} />
      ))}
    </g>
  );
}

function CentreLine({ d, length }: { d: Drawing; length: number }) {
  const a = d.at(-2, 0);
  const b = d.at(length + 1, 0);
  return <line x1={a.x} y1={a.y} x2={b.x} y2={b.y} className="plan-centre" />;
}

function EngineShape({ view, engine, d }: { view: PlanView; engine: EngineMark; d: Drawing }) {
  const r = view.type.propeller.diameter / 2;
  const a = d.at(engine.x, engine.y - r);
  const b = d.at(engine.x, engine.y + r);
  return (
    <g>
      {engine.turning && (
        <rect
          {...box(d, engine.x - r * 0.55, engine.y - r, engine.x + r * 0.35, engine.y + r)}
          fill="url(#swept)"
          className="plan-swept"
        />
      )}
      <path d={nacelle(view.type, d, engine)} className="plan-skin" />
      <line x1={a.x} y1={a.y} x2={b.x} y2={b.y} strokeWidth={engine.turning ? 7 : 4} />
    </g>
  );
}

function Wheels({ view, d }: { view: PlanView; d: Drawing }) {
  const { mainGearX: x, gearTrack } = view.type.plan;
  const size = view.type.plan.length * 0.016;
  return (
    <g>
      {[-1, 1].map((side) => {
        const y = (side * gearTrack) / 2;
        const wheel = box(d, x - size, y - size * 0.55, x + size, y + size * 0.55);
        return (
          <g key={side}>
            <rect {...wheel} fill="var(--ink)" />
            {[-1, 1].map((end) => (
              <rect
                key={end}
                {...box(d, x + end * size * 1.15, y - size * 1.1, x + end * size * 2, y + size * 1.1)}
                className={`plan-chock plan-chock-${view.chocks}`}
              />
            ))}
          </g>
        );
      })}
    </g>
  );
}

function Cart({ view, d }: { view: PlanView; d: Drawing }) {
  const { receptacle, length, span } = view.type.plan;
  const side = receptacle.y < 0 ? -1 : 1;
  const to = d.at(receptacle.x, receptacle.y);
  const x = Math.max(length * 0.05, receptacle.x - length * 0.04);
  const y = side * span * 0.14;
  const cart = box(d, x - 1.1, y - 0.9, x + 1.1, y + 0.9);
  const from = d.at(x, y - side * 0.9);
  return (
    <g>
      <path
        d={`M${from.x} ${from.y}Q${(from.x + to.x) / 2} ${from.y} ${to.x} ${to.y}`}
        className={`plan-cable plan-cable-${view.power.is}`}
      />
      <rect {...cart} className={`plan-cart plan-cart-${view.power.is}`} />
      <circle cx={to.x} cy={to.y} r={7} fill="var(--paper)" />
    </g>
  );
}

function Guard({ view, d, at }: { view: PlanView; d: Drawing; at: number }) {
  const { plan } = useWords().text;
  const engine = view.engines.find((e) => e.n === at);
  if (!engine) return null;
  const out = engine.y < 0 ? -1 : 1;
  const r = view.type.propeller.diameter / 2;
  const p = d.at(engine.x - r * 0.4, engine.y + out * (r + 1.4));
  const left = p.x > WIDTH / 2;
  return (
    <g className="plan-guard">
      <circle cx={p.x} cy={p.y} r={17} />
      <path
        d={`M${p.x - 9} ${p.y + 8}a9 9 0 0 1 18 0M${p.x} ${p.y - 4}m-5 0a5 5 0 1 0 10 0a5 5 0 1 0-10 0`}
      />
      <text x={p.x + (left ? 24 : -24)} y={p.y + 10} textAnchor={left ? "start" : "end"}>
        {plan.guard}
      </text>
    </g>
  );
}
