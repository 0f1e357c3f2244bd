import { useState } from "react";
import { EQUIPMENT_KINDS, type EquipmentKind } from "../../../shared/protocol/equipmentKinds.ts";
import { equipmentWords } from "../../../shared/words/equipment.ts";
import { equipment } from "../../net/equipment.ts";
import { Choice } from "../../ui/Choice.tsx";
import { useEquipmentWords } from "../../words/equipment.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { EquipmentForm } from "./EquipmentForm.tsx";
import { NOTHING } from "./entry.ts";

/** Adds a piece of equipment: first its kind, then the fields of that kind. */
export function AddEquipment() {
  const words = useEquipmentWords();
  const { kinds } = equipmentWords(useWords().say.language);
  const [kind, setKind] = useState<EquipmentKind | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  return (
    <SidePage
      title={words.add}
      lead={words.addLead}
      trouble={trouble}
      keys={
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/equipment")}>
          {words.back}
        </button>
      }
    >
      <section className="options" aria-label={words.kind}>
        <h2>{words.kind}</h2>
        <Choice<EquipmentKind>
          label={words.kind}
          chosen={kind}
          options={EQUIPMENT_KINDS.map((is) => ({ is, words: kinds[is] }))}
          className="option-keys"
          classNameOfKeys="answer"
          onChoose={setKind}
        />
      </section>
      {kind && (
        <EquipmentForm
          key={kind}
          kind={kind}
          begin={NOTHING}
          fresh
          onSave={(entry) => equipment.add(entry).then(() => go(`/equipment/${entry.id}`))}
          onTrouble={setTrouble}
        />
      )}
    </SidePage>
  );
}
