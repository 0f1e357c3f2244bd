import { useState } from "react";
import type { Quantity, Unit } from "../../shared/protocol/quantity.ts";
import { useWords } from "../words/words.ts";
import { FigureEntry } from "./FigureEntry.tsx";
import type { FigureSpec } from "./figureSpec.ts";
import { ReasonEntry } from "./ReasonEntry.tsx";

interface Props {
  spec: FigureSpec;
  unit: Unit;
  /** Word on the key that sends the forecast. */
  word: string;
  disabled: boolean;
  onEnter(forecast: { figure: Quantity; reason: string }): void;
  onBack(): void;
}

/** Entry of a forecast: its figure, and then where it is from. */
export function ForecastEntry({ spec, unit, word, disabled, onEnter, onBack }: Props) {
  const { entry } = useWords().text;
  const [value, setValue] = useState<number | null>(null);
  if (value === null)
    return (
      <FigureEntry
        spec={spec}
        word={entry.record}
        disabled={disabled}
        follows={() => []}
        onEnter={setValue}
        onBack={onBack}
      />
    );
  return (
    <ReasonEntry
      prompt={entry.forecast}
      usual={entry.forecasts}
      word={word}
      disabled={disabled}
      onEnter={(reason) => onEnter({ figure: { value, unit }, reason })}
      onBack={() => setValue(null)}
    />
  );
}
