import { useEffect, useRef, useState } from "react";
import { type Box, figureBox, figureMarks, lineFor } from "../../../shared/handSignals/figure.ts";
import { poseAt, showing } from "../../../shared/handSignals/motion.ts";
import type { Form, HandSignal } from "../../../shared/handSignals/signal.ts";
import { strip } from "../../../shared/handSignals/strip.ts";
import { SheetDrawing } from "./SheetDrawing.tsx";
import { useStill } from "./useStill.ts";

interface Props {
  signal: HandSignal;
  form: Form;
  /** Approximate height on screen, CSS pixels; line widths are chosen for it. */
  height: number;
  label: string | null;
  /** Least width of the view box, so that figures side by side have the same scale. */
  width?: number;
}

/** Time between frames, milliseconds: slow enough to save work, fast enough for a hand's movement. */
const FRAME_MS = 33;

/** The signal in motion, repeated while it is in sight. With reduced motion, its key poses side by side. */
export function MovingFigure(props: Props) {
  const { signal, form, height, label } = props;
  if (useStill()) return <SheetDrawing sheet={strip(signal, form, height)} label={label} />;
  return <Moving key={`${signal.key}/${form}`} {...props} />;
}

function Moving({ signal, form, height, label, width = 0 }: Props) {
  const [seconds, setSeconds] = useState(0);
  const drawing = useRef<SVGSVGElement>(null);
  useEffect(() => {
    let begun: number | null = null;
    let drawn = 0;
    let frame = 0;
    const step = (now: number) => {
      begun ??= now;
      if (now - drawn >= FRAME_MS) {
        drawn = now;
        setSeconds((now - begun) / 1000);
      }
      frame = requestAnimationFrame(step);
    };
    const seen = new IntersectionObserver((entries) => {
      cancelAnimationFrame(frame);
      if (entries.at(-1)?.isIntersecting) frame = requestAnimationFrame(step);
    });
    if (drawing.current) seen.observe(drawing.current);
    return () => {
      seen.disconnect();
      cancelAnimationFrame(frame);
    };
  }, []);
  const box = widened(figureBox(signal, form), width);
  const pose = poseAt(showing(signal, form), seconds);
  return (
    <SheetDrawing
      ref={drawing}
      sheet={{ box, marks: figureMarks(signal, form, pose, lineFor(box, height)) }}
      label={label}
    />
  );
}

function widened(box: Box, width: number): Box {
  const more = Math.max(0, width - box.width);
  return { ...box, x: box.x - more / 2, width: box.width + more };
}
