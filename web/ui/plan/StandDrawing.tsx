import type { CSSProperties } from "react";
import { enginesSeen, type Facing } from "../../../shared/models/facing.ts";
import { EngineKey } from "./EngineKey.tsx";
import { type Drawing, fuselage, nacelle, type Point, tailplane, WIDTH, wing } from "./geometry.ts";
import type { EngineMark } from "./planView.ts";
import type { StandView } from "./standView.ts";

/** Margin around the drawn ground, metres. */
const EDGE = 3;
/** Length of the scale bar, metres. */
const RULE = 10;
/** Height of the lines from the keys to the engines' places, in units of the drawing. */
const LEAD = 34;
/** Most height of the drawing below the keys, in units of the drawing: a long stream leaves the keys their width. */
const MOST_BELOW_KEYS = 900;

interface Props {
  view: StandView;
  facing: Facing;
  words: { title: string; guard: string; metres(n: number): string; keep(n: number): string };
  /** Engines as keys ahead of the nose, each joined by a line to its place; left out where nothing is touched. */
  keys?: { engines: readonly EngineMark[]; onEngine(n: number): void };
}

/**
 * The aircraft on its stand, true to scale: swept arcs, ground kept clear behind engines, the guard's path, objects
 * near.
 */
export function StandDrawing({ view, facing, words, keys }: Props) {
  const d = toScale(view, facing, keys !== undefined);
  const seen = keys
    ? enginesSeen(view.type.engines.length, facing).flatMap((n) => keys.engines.filter((e) => e.n === n))
    : [];
  return (
    <div className="stand-to-scale" style={{ "--wide": (WIDTH / d.height).toFixed(3) } as CSSProperties}>
      {keys && (
        <div className="plan-keys" data-count={seen.length}>
          {seen.map((e) => (
            <EngineKey key={e.n} engine={e} onPress={() => keys.onEngine(e.n)} />
          ))}
        </div>
      )}
      <Ground d={d} view={view} words={words} seen={seen} onEngine={keys?.onEngine} />
    </div>
  );
}

interface GroundProps {
  d: Drawing;
  view: StandView;
  words: Props["words"];
  /** The engines with a key, in the order of their keys. */
  seen: readonly EngineMark[];
  onEngine: ((n: number) => void) | undefined;
}

function Ground({ d, view, words, seen, onEngine }: GroundProps) {
  const { type } = view;
  return (
    <svg
      viewBox={`0 0 ${WIDTH} ${d.height.toFixed(0)}`}
      className="stand"
      role="img"
      aria-label={words.title}
    >
      <title>{words.title}</title>
      <defs>
        <pattern
          id="stand-swept"
          width="12"
          height="12"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect width="12" height="12" fill="var(--paper)" />
          <rect width="5" height="12" fill="var(--danger)" />
        </pattern>
      </defs>
      {view.behind.map((b) => (
        <polygon key={b.n} points={corners(d, b.corners)} className="stand-behind" />
      ))}
      {seen.map((e, i) => {
        const from = ((i + 0.5) / seen.length) * WIDTH;
        const to = d.at(e.x, e.y);
        return <path key={e.n} d={`M${from} 0V${LEAD}L${to.x} ${to.y}`} className="plan-leader" />;
      })}
      <g className="stand-skin">
        {([1, -1] as const).map((side) => (
          <path key={side} d={wing(type, d, side)} />
        ))}
        <path d={tailplane(type, d)} />
        <path d={fuselage(type, d)} />
        {type.engines.map((e) => (
          <path key={e.n} d={nacelle(type, d, e)} />
        ))}
      </g>
      {view.arcs.map((a) => (
        // biome-ignore lint/a11y/noStaticElementInteractions: the key of the same engine does the same
        <polygon
          key={a.n}
          points={corners(d, a.corners)}
          className="stand-arc"
          data-turning={a.turning || undefined}
          fill={a.turning ? "url(#stand-swept)" : "none"}
          onClick={onEngine && (() => onEngine(a.n))}
        />
      ))}
      {type.engines.map((e) => {
        const p = d.at(e.x - 2.6, e.y);
        return (
          <text key={e.n} x={p.x} y={p.y} className="stand-number">
            {e.n}
          </text>
        );
      })}
      {view.near.map((n) => (
        <Near key={n.name} d={d} near={n} word={words.metres} />
      ))}
      <Behind d={d} view={view} word={words.keep} />
      {view.walk.length > 1 && <polyline points={corners(d, view.walk)} className="stand-walk" />}
      {view.guard && <Guard d={d} at={view.guard} word={words.guard} />}
      <Scale d={d} word={words.metres(RULE)} />
    </svg>
  );
}

/** The length of the ground to keep clear, at its aft end. */
function Behind({ d, view, word }: { d: Drawing; view: StandView; word(n: number): string }) {
  const [first] = view.behind;
  if (!first) return null;
  const at = d.at(Math.max(...view.behind.flatMap((b) => b.corners.map((c) => c.x))) - 4, 0);
  return (
    <text x={at.x} y={at.y} className="stand-number">
      {word(Math.ceil(first.metres))}
    </text>
  );
}

function Near({ d, near, word }: { d: Drawing; near: StandView["near"][number]; word(n: number): string }) {
  const placed = near.corners.map((c) => d.at(c.x, c.y));
  const middle = {
    x: placed.reduce((sum, p) => sum + p.x, 0) / placed.length,
    y: placed.reduce((sum, p) => sum + p.y, 0) / placed.length,
  };
  const anchor = middle.x < WIDTH * 0.25 ? "start" : middle.x > WIDTH * 0.75 ? "end" : "middle";
  return (
    <g className="stand-near" data-too-near={near.tooNear || undefined}>
      <polygon points={corners(d, near.corners)} />
      <text x={middle.x} y={middle.y + 9} textAnchor={anchor}>
        {near.tooNear ? `✕ ${near.name}` : near.name}
        {near.metres === null ? "" : ` ${word(Math.floor(near.metres))}`}
      </text>
    </g>
  );
}

function Guard({ d, at, word }: { d: Drawing; at: Point; word: string }) {
  const p = d.at(at.x, at.y);
  const left = p.x > WIDTH / 2;
  return (
    <g className="stand-guard">
      <circle cx={p.x} cy={p.y} r={11} />
      <text x={p.x + (left ? 18 : -18)} y={p.y + 9} textAnchor={left ? "start" : "end"}>
        {word}
      </text>
    </g>
  );
}

function Scale({ d, word }: { d: Drawing; word: string }) {
  const y = d.height - 22;
  const long = RULE * d.scale;
  return (
    <g className="stand-scale">
      <path d={`M20 ${y - 8}v16M20 ${y}h${long}M${20 + long} ${y - 8}v16`} />
      <text x={30 + long} y={y + 8}>
        {word}
      </text>
    </g>
  );
}

function corners(d: Drawing, points: readonly Point[]): string {
  return points
    .map((c) => d.at(c.x, c.y))
    .map((p) => `${p.x.toFixed(1)},${p.y.toFixed(1)}`)
    .join(" ");
}

/**
 * Returns a drawing that fits all outlines, nose up or down as the person stands. Unlike the plan it shortens
 * nothing.
 */
function toScale(view: StandView, facing: Facing, keyed: boolean): Drawing {
  const { span, length } = view.type.plan;
  const ground = [
    { x: 0, y: -span / 2 },
    { x: length, y: span / 2 },
    ...view.arcs.flatMap((a) => a.corners),
    ...view.behind.flatMap((b) => b.corners),
    ...view.near.flatMap((n) => n.corners),
    ...view.walk,
  ];
  const [fore, aft] = [
    Math.min(...ground.map((p) => p.x)) - EDGE,
    Math.max(...ground.map((p) => p.x)) + EDGE,
  ];
  const wide = Math.max(...ground.map((p) => Math.abs(p.y))) + EDGE;
  const lead = keyed ? LEAD : 0;
  const scale = Math.min(
    WIDTH / (2 * wide),
    keyed ? MOST_BELOW_KEYS / (aft - fore) : Number.POSITIVE_INFINITY,
  );
  const height = (aft - fore) * scale + 40 + lead;
  return {
    height,
    scale,
    at(x, y) {
      const down = (x - fore) * scale;
      const across = WIDTH / 2 + y * scale;
      return facing === "forward"
        ? { x: across, y: lead + down }
        : { x: WIDTH - across, y: height - 40 - lead - down };
    },
  };
}
