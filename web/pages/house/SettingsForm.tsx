import { useEffect, useState } from "react";
import { LAPSE_RULES } from "../../../shared/house/lapseRule.ts";
import { EQUIPMENT_KINDS } from "../../../shared/protocol/equipmentKinds.ts";
import { equipmentWords } from "../../../shared/words/equipment.ts";
import { type HouseSettings, settings } from "../../net/equipment.ts";
import { Choice } from "../../ui/Choice.tsx";
import { useSettingsWords } from "../../words/settings.ts";
import { useWords } from "../../words/words.ts";

interface Props {
  /** True for those who change the house. Others read it. */
  may: boolean;
  onTrouble(error: Error | null): void;
}

/** The person who closes a defect: another person after an inspection, or the same who mended it. */
const INSPECTS = ["other", "same"] as const;

/** The house's name, whether another person inspects mended defects, and for each kind of equipment whether a date that is over bars its use. */
export function SettingsForm({ may, onTrouble }: Props) {
  const words = useSettingsWords();
  const { kinds } = equipmentWords(useWords().say.language);
  const [house, setHouse] = useState<HouseSettings | null>(null);
  const [saved, setSaved] = useState(false);
  const read = () => settings.read().then(setHouse, onTrouble);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(() => {
    void read();
  }, []);
  if (!house) return null;
  const change = (next: HouseSettings) => {
    setSaved(false);
    setHouse(next);
  };
  return (
    <form
      className="register-form"
      onSubmit={(e) => {
        e.preventDefault();
        onTrouble(null);
        settings
          .change({ ...house, name: house.name.trim() })
          .then(read)
          .then(() => setSaved(true), onTrouble);
      }}
    >
      <label className="field">
        <span>{words.name}</span>
        <input
          name="house"
          value={house.name}
          maxLength={60}
          readOnly={!may}
          onChange={(e) => change({ ...house, name: e.target.value })}
        />
      </label>
      <section className="own" aria-label={words.overdueTitle}>
        <h2>{words.overdueTitle}</h2>
        <p>{words.overdueWhat}</p>
        {EQUIPMENT_KINDS.map((kind) => (
          <div key={kind} className="house-rule">
            <h3>{kinds[kind]}</h3>
            <Choice
              label={kinds[kind]}
              chosen={house.overdue[kind]}
              options={LAPSE_RULES.map((is) => ({ is, words: words.rules[is], disabled: !may }))}
              className="option-keys"
              classNameOfKeys="answer"
              onChoose={(rule) => change({ ...house, overdue: { ...house.overdue, [kind]: rule } })}
            />
          </div>
        ))}
      </section>
      <section className="own" aria-label={words.inspectTitle}>
        <h2>{words.inspectTitle}</h2>
        <p>{words.inspectWhat}</p>
        <div className="house-rule">
          <h3>{words.inspectWho}</h3>
          <Choice
            label={words.inspectTitle}
            chosen={house.inspectsDefects ? "other" : "same"}
            options={INSPECTS.map((is) => ({ is, words: words.inspects[is], disabled: !may }))}
            className="option-keys"
            classNameOfKeys="answer"
            onChoose={(is) => change({ ...house, inspectsDefects: is === "other" })}
          />
        </div>
      </section>
      {may && (
        <button type="submit" className="answer" data-tone="yes" disabled={house.name.trim() === ""}>
          {words.save}
        </button>
      )}
      {saved && <p role="status">{words.saved}</p>}
    </form>
  );
}
