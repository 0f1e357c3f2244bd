import { useWords } from "../words/words.ts";
import type { FigureSpec } from "./figureSpec.ts";

interface Props {
  spec: Pick<FigureSpec, "from" | "to" | "low" | "high">;
  value: number | null;
  onTouch(value: number): void;
}

/** A part of an instrument's scale as a ruled line, with the good band in a heavier line. A touch enters its figure. */
export function Scale({ spec: { from, to, low, high }, value, onTouch }: Props) {
  const words = useWords().text.entry;
  const onLine = (v: number) => Math.min(to, Math.max(from, v));
  const x = (v: number) => 20 + ((onLine(v) - from) / (to - from)) * 960;
  const marks = Array.from({ length: 11 }, (_, i) => from + ((to - from) * i) / 10);
  const banded = low !== null || high !== null;
  return (
    <svg
      viewBox="0 0 1000 96"
      className="scale"
      role="img"
      aria-label={words.scale(from, to)}
      onPointerDown={(event) => {
        const at = event.currentTarget.getBoundingClientRect();
        const across = ((event.clientX - at.left) / at.width) * 1000;
        onTouch(from + ((across - 20) / 960) * (to - from));
      }}
    >
      <title>{words.range(from, to)}</title>
      <line x1={20} y1={52} x2={980} y2={52} className="scale-line" />
      {banded && <line x1={x(low ?? from)} y1={52} x2={x(high ?? to)} y2={52} className="scale-band" />}
      {marks.map((m, i) => (
        <g key={m}>
          <line x1={x(m)} y1={52} x2={x(m)} y2={i % 5 === 0 ? 70 : 62} className="scale-line" />
          {i % 5 === 0 && (
            <text
              x={x(m)}
              y={94}
              textAnchor={i === 0 ? "start" : i === 10 ? "end" : "middle"}
              className="scale-text"
            >
              {Number(m.toFixed(2))}
            </text>
          )}
        </g>
      ))}
      {value !== null && <path d={`M${x(value)} 46l-15 -34h30z`} className="scale-pointer" />}
    </svg>
  );
}
