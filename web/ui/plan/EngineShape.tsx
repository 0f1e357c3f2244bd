import { ENGINE_SHAPES } from "./engineShapes.ts";
import type { EngineMark } from "./planView.ts";

/** The state of an engine as its propeller seen from ahead, for people who cannot tell the colours apart. */
export function EngineShape({ shape }: { shape: EngineMark["shape"] }) {
  const { line, fill } = ENGINE_SHAPES[shape];
  return (
    <svg viewBox="-2 -2 52 52" className="engine-shape" aria-hidden="true">
      {line && <path d={line} className="line" />}
      {fill && <path d={fill} className="fill" />}
    </svg>
  );
}
