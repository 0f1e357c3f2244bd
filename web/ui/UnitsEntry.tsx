import { UNIT_FAMILIES, type UnitChoice, type UnitFamily } from "../../shared/models/unitChoice.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import { unitWord } from "../../shared/words/units.ts";
import { useWords } from "../words/words.ts";

interface Props {
  choice: UnitChoice;
  onChoose(next: UnitChoice): void;
}

/** A row of keys for each kind of figure: as read, or one unit for all of them. */
export function UnitsEntry({ choice, onChoose }: Props) {
  const words = useWords().text.units;
  const set = (family: UnitFamily, unit: Unit | undefined) => {
    const { [family]: _before, ...rest } = choice;
    onChoose(unit === undefined ? rest : { ...rest, [family]: unit });
  };
  return (
    <>
      <p>{words.what}</p>
      {(Object.keys(UNIT_FAMILIES) as UnitFamily[]).map((family) => (
        <fieldset key={family} className="unit-row">
          <legend>{words.families[family]}</legend>
          <div className="unit-keys">
            {[undefined, ...UNIT_FAMILIES[family]].map((unit) => (
              <button
                key={unit ?? "asRead"}
                type="button"
                className="unit-key"
                aria-pressed={choice[family] === unit}
                onClick={() => set(family, unit)}
              >
                {unit === undefined ? words.asRead : unitWord(unit)}
              </button>
            ))}
          </div>
        </fieldset>
      ))}
    </>
  );
}
