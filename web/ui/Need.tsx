import type { Quantity } from "../../shared/protocol/quantity.ts";
import type { AnswerKey } from "./askView.ts";
import { EngineKeys } from "./EngineKeys.tsx";
import { FigureEntry } from "./FigureEntry.tsx";
import { ReasonEntry } from "./ReasonEntry.tsx";

/** What a person put in for an answer. */
export interface Given {
  engine?: number;
  figure?: Quantity;
  reason?: string;
}

interface NeedProps {
  answer: AnswerKey;
  numbers: readonly number[];
  blocked: boolean;
  onGive(given: Given): void;
  onBack(): void;
}

/** What must be put in before an answer can go. */
export function Need({ answer, numbers, blocked, onGive, onBack }: NeedProps) {
  const need = answer.choice.need;
  if (need?.is === "engine") {
    return (
      <EngineKeys
        numbers={numbers}
        prompt="Read back: which engine?"
        disabled={blocked}
        onPick={(engine) => onGive({ engine })}
        onBack={onBack}
      />
    );
  }
  const spec = answer.figure;
  if (need?.is === "figure" && spec) {
    return (
      <FigureEntry
        spec={spec}
        word="Record"
        disabled={blocked}
        onEnter={(value) => onGive({ figure: { value, unit: spec.unit } })}
        onBack={onBack}
      />
    );
  }
  return (
    <ReasonEntry
      prompt="Give the reason"
      usual={[]}
      word={answer.word}
      disabled={blocked}
      onEnter={(reason) => onGive({ reason })}
      onBack={onBack}
    />
  );
}
