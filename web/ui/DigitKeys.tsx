import "../styles/pad.css";
import { useLaterWords } from "../words/later.ts";
import type { FigureSpec } from "./figureSpec.ts";
import { type DigitKey, decimalsOf } from "./typedFigure.ts";

interface Props {
  scale: Pick<FigureSpec, "from" | "step">;
  onKey(key: DigitKey): void;
  /** Goes on to the next figure; null where there is only one. */
  onNext: (() => void) | null;
}

/** Large keys for the digits of a figure, with a point and a sign where the instrument shows them. */
export function DigitKeys({ scale, onKey, onNext }: Props) {
  const { pad } = useLaterWords();
  const key = (of: DigitKey, name?: string) => (
    <button key={of} type="button" className="digit-key" aria-label={name} onClick={() => onKey(of)}>
      {of === "back" ? "⌫" : of}
    </button>
  );
  const signs = [
    ...(decimalsOf(scale) > 0 ? [key(".", pad.point)] : []),
    ...(scale.from < 0 ? [key("±", pad.sign)] : []),
  ];
  return (
    <div className="digit-keys" data-signs={signs.length > 0 || undefined}>
      {(["1", "2", "3", "4", "5", "6", "7", "8", "9"] as const).map((d) => key(d))}
      {key("back", pad.back)}
      {key("0")}
      {onNext && (
        <button type="button" className="digit-key digit-next" onClick={onNext}>
          {pad.next}
        </button>
      )}
      {signs.length > 0 && <div className="digit-signs">{signs}</div>}
    </div>
  );
}
