import type { PlanBar } from "../../../shared/house/planBar.ts";
import { useRegisterWords } from "../../words/register.ts";

/** Says as a shape and in words whether an aircraft can be planned. */
export function Bar({ bar }: { bar: PlanBar | null }) {
  const words = useRegisterWords();
  return (
    <span className="register-bar" data-is={bar?.is ?? "none"}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        {bar === null ? <path d="M3 10 L8 15 L17 5" /> : <path d="M10 2 L18 10 L10 18 L2 10 Z M6 10 H14" />}
      </svg>
      <span>{bar === null ? words.mayStart : words.bar(bar)}</span>
    </span>
  );
}
