import { UNIT_FAMILIES, type UnitChoice, type UnitFamily } from "../../shared/models/unitChoice.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import { unitWord } from "../../shared/words/units.ts";
import { useLaterWords } from "../words/later.ts";
import { Choice } from "./Choice.tsx";

const AS_READ = "asRead";

interface Props {
  choice: UnitChoice;
  onChoose(next: UnitChoice): void;
}

/** A row of keys for each kind of figure: as read, or one unit for all. */
export function UnitsEntry({ choice, onChoose }: Props) {
  const words = useLaterWords().units;
  const set = (family: UnitFamily, unit: Unit | undefined) => {
    const { [family]: _before, ...rest } = choice;
    onChoose(unit === undefined ? rest : { ...rest, [family]: unit });
  };
  return (
    <>
      <p>{words.what}</p>
      {(Object.keys(UNIT_FAMILIES) as UnitFamily[]).map((family) => (
        <section key={family} className="unit-row">
          <h3>{words.families[family]}</h3>
          <Choice<Unit | typeof AS_READ>
            label={words.families[family]}
            chosen={choice[family] ?? AS_READ}
            options={[
              { is: AS_READ, words: words.asRead },
              ...UNIT_FAMILIES[family].map((is) => ({ is, words: unitWord(is) })),
            ]}
            className="unit-keys"
            classNameOfKeys="unit-key"
            onChoose={(is) => set(family, is === AS_READ ? undefined : is)}
          />
        </section>
      ))}
    </>
  );
}
