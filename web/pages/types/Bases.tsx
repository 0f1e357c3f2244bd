import { BASES } from "../../../shared/types/limit.ts";
import type { AircraftType } from "../../../shared/types/schema.ts";
import { countByBasis } from "../../../shared/types/unfit.ts";
import { useTypeWords } from "../../words/types.ts";
import { useTypeNames } from "./names.ts";

/** Counts the figures of a type by the basis they rest on. A basis without a figure is left out. */
export function Bases({ type }: { type: AircraftType }) {
  const words = useTypeWords();
  const names = useTypeNames();
  const count = countByBasis(type);
  return (
    <>
      <h3>{words.rests}</h3>
      <dl className="bases">
        {BASES.filter((basis) => count[basis] > 0).map((basis) => (
          <div key={basis} data-basis={basis}>
            <dt>{names.value(basis)}</dt>
            <dd>{count[basis]}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
