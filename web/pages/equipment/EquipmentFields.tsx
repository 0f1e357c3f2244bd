import { WIRE_TABLE } from "../../../shared/models/electrical/wireTable.ts";
import { type EquipmentKind, LABEL_MOST } from "../../../shared/protocol/equipmentKinds.ts";
import { useEquipmentWords } from "../../words/equipment.ts";
import type { EquipmentText, Field } from "./entry.ts";

/** The fields that only one kind has, in the order of the form. */
const OWN: Readonly<Record<EquipmentKind, readonly Exclude<Field, "id">[]>> = {
  cart: ["volts", "continuousA", "peakA", "size", "metres", "parallel", "internalOhm"],
  extinguisher: ["agent", "chargeKg", "weighedUntil"],
  chocks: [],
  towBar: [],
  headset: [],
};

const MOST: Readonly<Partial<Record<Field, number>>> = { name: 60, agent: 40, place: 60, notes: 500 };
const DAYS: readonly Field[] = ["weighedUntil", "testedUntil"];
const WORDY: readonly Field[] = ["name", "agent", "place", "notes"];

interface Props {
  kind: EquipmentKind;
  text: EquipmentText;
  /** True for a piece that is not in the register yet: its label is entered. */
  fresh: boolean;
  onText(next: EquipmentText): void;
}

/** The fields of one kind of equipment. */
export function EquipmentFields({ kind, text, fresh, onText }: Props) {
  const words = useEquipmentWords();
  const set = (field: Field, value: string) => onText({ ...text, [field]: value });
  const field = (is: Exclude<Field, "id" | "size">) => (
    <label key={is} className="field">
      <span>{words[is]}</span>
      <input
        name={is}
        value={text[is]}
        type={DAYS.includes(is) ? "date" : "text"}
        inputMode={WORDY.includes(is) ? "text" : "decimal"}
        maxLength={MOST[is] ?? 12}
        autoComplete="off"
        onChange={(e) => set(is, e.target.value)}
      />
    </label>
  );
  const size = (
    <label key="size" className="field">
      <span>{words.size}</span>
      <select name="size" value={text.size} onChange={(e) => set("size", e.target.value)}>
        <option value="" />
        {WIRE_TABLE.map((row) => (
          <option key={row.size}>{row.size}</option>
        ))}
      </select>
    </label>
  );
  return (
    <div className="register-fields">
      {fresh && (
        <label className="field">
          <span>{words.label}</span>
          <input
            name="id"
            value={text.id}
            maxLength={LABEL_MOST}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            onChange={(e) => set("id", e.target.value.toUpperCase())}
          />
          <span className="field-note">{words.labelRule}</span>
        </label>
      )}
      {field("name")}
      {OWN[kind].map((is) => (is === "size" ? size : field(is)))}
      {field("testedUntil")}
      {field("place")}
      {field("notes")}
    </div>
  );
}
