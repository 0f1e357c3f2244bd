import { Aircraft } from "./Aircraft.tsx";
import { drawingOf, WIDTH } from "./geometry.ts";
import type { PlanView } from "./planView.ts";

/** The plan of an aircraft alone, small and without keys. It faces up the page. */
export function PlanDrawing({ view }: { view: PlanView }) {
  const d = drawingOf(view.type, "forward");
  return (
    <svg viewBox={`0 0 ${WIDTH} ${d.height.toFixed(0)}`} className="plan-small" aria-hidden="true">
      <defs>
        <pattern
          id="swept"
          width="16"
          height="16"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect width="16" height="16" fill="var(--paper)" />
          <rect width="7" height="16" fill="var(--danger)" />
        </pattern>
      </defs>
      <Aircraft view={view} d={d} />
    </svg>
  );
}
