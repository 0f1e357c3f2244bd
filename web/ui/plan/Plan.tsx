import { memo } from "react";
import { enginesSeen, type Facing } from "../../../shared/models/facing.ts";
import { useWords } from "../../words/words.ts";
import { Aircraft } from "./Aircraft.tsx";
import { EngineKey } from "./EngineKey.tsx";
import { drawingOf, WIDTH } from "./geometry.ts";
import type { EngineMark, PlanView } from "./planView.ts";
import { SweptPattern } from "./SweptPattern.tsx";

interface Props {
  view: PlanView;
  facing: Facing;
  /** The direction the person faces to see the plan like this, in words. */
  words: string;
  onFacing?: ((next: Facing) => void) | undefined;
  /** Words on the key that turns the plan round. */
  turnWords?: string | undefined;
  /** Undefined where engines are only shown. */
  onEngine?: ((n: number) => void) | undefined;
}

/**
 * The aircraft as this person sees it. Each engine's key is on the nose side, joined by a line to the engine's place.
 */
export const Plan = memo(function Plan({ view, facing, words, onFacing, turnWords, onEngine }: Props) {
  const { plan } = useWords().text;
  const d = drawingOf(view.type, facing);
  const seen = enginesSeen(view.engines.length, facing);
  const keys = seen.flatMap((n) => view.engines.filter((e) => e.n === n));
  const row = (
    <div className="plan-keys" data-count={keys.length}>
      {keys.map((e) => (
        <EngineKey key={e.n} engine={e} onPress={onEngine && (() => onEngine(e.n))} />
      ))}
    </div>
  );
  const wingTip = (side: 1 | -1, text: string) => {
    const p = d.at(view.type.plan.length * 0.62, (side * view.type.plan.span) / 2.9);
    return (
      <text x={p.x} y={p.y} textAnchor="middle" className="plan-side">
        {text}
      </text>
    );
  };
  return (
    <figure className="plan" data-facing={facing}>
      {facing === "forward" && row}
      <svg viewBox={`0 0 ${WIDTH} ${d.height.toFixed(0)}`} role="img" aria-label={`${words}.`}>
        <title>{words}</title>
        <defs>
          <SweptPattern />
        </defs>
        {keys.map((e, i) => (
          <Leader key={e.n} engine={e} index={i} count={keys.length} view={view} facing={facing} />
        ))}
        <Aircraft view={view} d={d} />
        {wingTip(-1, plan.port)}
        {wingTip(1, plan.starboard)}
      </svg>
      {facing === "nose" && row}
      <figcaption className="plan-caption">
        <span>{words}</span>
        {onFacing && (
          <button
            type="button"
            className="small-key"
            onClick={() => onFacing(facing === "nose" ? "forward" : "nose")}
          >
            {turnWords}
          </button>
        )}
      </figcaption>
    </figure>
  );
});

function Leader(props: { engine: EngineMark; index: number; count: number; view: PlanView; facing: Facing }) {
  const { engine, index, count, view, facing } = props;
  const d = drawingOf(view.type, facing);
  const from = { x: ((index + 0.5) / count) * WIDTH, y: facing === "forward" ? 0 : d.height };
  const to = d.at(engine.x, engine.y);
  const knee = facing === "forward" ? 40 : d.height - 40;
  return (
    <polyline
      points={`${from.x},${from.y} ${from.x},${knee} ${to.x},${to.y}`}
      className={engine.asked ? "plan-leader plan-leader-asked" : "plan-leader"}
    />
  );
}
