import type { Ref } from "react";
import type { Mark, Tone } from "../../../shared/handSignals/marks.ts";
import type { Sheet } from "../../../shared/handSignals/strip.ts";

const TONES: Readonly<Record<Tone, string>> = {
  ink: "var(--ink)",
  soft: "var(--rule-soft)",
  paper: "var(--paper)",
  light: "var(--warning-ground)",
};

/** A hand signal's drawing, still or one frame of its motion. `label` is null where words stand beside it. */
export function SheetDrawing({
  sheet,
  label,
  ref,
}: {
  sheet: Pick<Sheet, "box" | "marks">;
  label: string | null;
  ref?: Ref<SVGSVGElement>;
}) {
  const { x, y, width, height } = sheet.box;
  const viewBox = `${x} ${y} ${width} ${height}`;
  if (label === null)
    return (
      <svg ref={ref} className="hand-figure" viewBox={viewBox} aria-hidden="true">
        <Marks marks={sheet.marks} />
      </svg>
    );
  return (
    <svg ref={ref} className="hand-figure" viewBox={viewBox} role="img" aria-label={label}>
      <Marks marks={sheet.marks} />
    </svg>
  );
}

function Marks({ marks }: { marks: readonly Mark[] }) {
  return marks.map((m, i) => (
    <path
      // biome-ignore lint/suspicious/noArrayIndexKey: the order of a drawing's paths is their only identity
      key={i}
      d={m.d}
      fill={m.fill ? TONES[m.fill] : "none"}
      stroke={m.stroke ? TONES[m.stroke] : "none"}
      strokeWidth={m.width}
      strokeLinecap="round"
      strokeLinejoin="round"
      strokeDasharray={m.dashed ? "2.4 2" : undefined}
    />
  ));
}
