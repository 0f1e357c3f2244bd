import { type ReactNode, useState } from "react";
import type { HouseEquipment } from "../../../shared/house/equipment.ts";
import type { EquipmentKind } from "../../../shared/protocol/equipmentKinds.ts";
import { useEquipmentWords } from "../../words/equipment.ts";
import { EquipmentFields } from "./EquipmentFields.tsx";
import { type EquipmentText, entryOf } from "./entry.ts";

interface Props {
  kind: EquipmentKind;
  begin: EquipmentText;
  fresh: boolean;
  /** Resolves when it was saved. */
  onSave(entry: HouseEquipment): Promise<unknown>;
  onTrouble(error: Error | null): void;
  /** Keys beside the one that saves. */
  keys?: ReactNode;
}

/** The form of one piece of equipment. What was typed stays until it is saved. */
export function EquipmentForm({ kind, begin, fresh, onSave, onTrouble, keys }: Props) {
  const words = useEquipmentWords();
  const [text, setText] = useState(begin);
  const [busy, setBusy] = useState(false);
  const entry = entryOf(kind, text);
  return (
    <form
      className="register-form"
      onSubmit={(e) => {
        e.preventDefault();
        if (!entry) return;
        setBusy(true);
        onTrouble(null);
        onSave(entry)
          .catch(onTrouble)
          .finally(() => setBusy(false));
      }}
    >
      <EquipmentFields kind={kind} text={text} fresh={fresh} onText={setText} />
      <div className="head-keys register-keys">
        <button type="submit" className="answer" data-tone="yes" disabled={!entry || busy}>
          {busy ? words.saving : fresh ? words.add : words.save}
        </button>
        {keys}
      </div>
    </form>
  );
}
