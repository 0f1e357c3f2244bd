import { useWords } from "../words/words.ts";
import { figure } from "./numbers.ts";

interface Props {
  /** Change by one touch of the fine key. */
  step: number;
  /** Number of fine steps in one coarse step. */
  coarse: number;
  unit: string;
  onStep(steps: number): void;
}

/** Keys for less and more, in coarse and fine steps. */
export function StepKeys({ step, coarse, unit, onStep }: Props) {
  const { entry } = useWords().text;
  return (
    <div className="step-keys">
      {[-coarse, -1, 1, coarse].map((steps) => {
        const size = figure(Math.abs(steps) * step, step);
        return (
          <button
            key={steps}
            type="button"
            className="step-key"
            onClick={() => onStep(steps)}
            aria-label={(steps < 0 ? entry.less : entry.more)(`${size} ${unit}`.trim())}
          >
            {steps < 0 ? "−" : "+"}
            {size}
          </button>
        );
      })}
    </div>
  );
}
