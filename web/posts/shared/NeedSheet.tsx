import { fill } from "../../../shared/asks/ask.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import { Need } from "../../ui/Need.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import type { Panel } from "./model.ts";

interface Props {
  panel: Panel;
  answer: AnswerKey;
  /** Engine numbers in the order this person sees them. */
  numbers: readonly number[];
  onClose(): void;
}

/** The entry that one key needs, over the panel. */
export function NeedSheet({ panel, answer, numbers, onClose }: Props) {
  return (
    <Sheet title={answer.word} onClose={onClose}>
      <Need
        answer={answer}
        numbers={numbers}
        now={panel.now}
        blocked={!panel.fresh && !answer.offline}
        confirm={panel.confirm}
        onGive={(given) => {
          const action = fill(answer.choice, given);
          if (action) panel.act(action, given.confirmed);
          onClose();
        }}
        onBack={onClose}
      />
    </Sheet>
  );
}
