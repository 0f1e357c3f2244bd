import { Aircraft } from "./Aircraft.tsx";
import { drawingOf, WIDTH } from "./geometry.ts";
import type { PlanView } from "./planView.ts";
import { SweptPattern } from "./SweptPattern.tsx";

/** The plan of an aircraft alone, small and without keys. It faces up the page. */
export function PlanDrawing({ view }: { view: PlanView }) {
  const d = drawingOf(view.type, "forward");
  return (
    <svg viewBox={`0 0 ${WIDTH} ${d.height.toFixed(0)}`} className="plan-small" aria-hidden="true">
      <defs>
        <SweptPattern />
      </defs>
      <Aircraft view={view} d={d} />
    </svg>
  );
}
