import { barsUse, type EquipmentFault } from "../../../shared/house/due.ts";
import { dayWords } from "../../../shared/words/dates.ts";
import { useEquipmentWords } from "../../words/equipment.ts";
import { useWords } from "../../words/words.ts";

/** Says as a shape and in words whether a piece can be used, with everything that speaks against it. */
export function Fitness({ faults }: { faults: readonly EquipmentFault[] }) {
  const words = useEquipmentWords();
  const { language } = useWords().say;
  const is = faults.some(barsUse) ? "barred" : faults.length > 0 ? "warned" : "none";
  const day = (until: string) => dayWords(Date.parse(until), language);
  return (
    <span className="register-bar" data-is={is}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        {is === "none" ? <path d="M3 10 L8 15 L17 5" /> : <path d="M10 2 L18 10 L10 18 L2 10 Z M6 10 H14" />}
      </svg>
      <span>{is === "none" ? words.good : faults.map((f) => words.fault(f, day)).join(". ")}</span>
    </span>
  );
}
