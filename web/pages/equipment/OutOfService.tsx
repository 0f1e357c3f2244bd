import { useState } from "react";
import { OUT_CAUSES, type OutCause } from "../../../shared/protocol/equipmentKinds.ts";
import { equipmentWords } from "../../../shared/words/equipment.ts";
import { equipment, type RegisteredEquipment } from "../../net/equipment.ts";
import { Choice } from "../../ui/Choice.tsx";
import { FormKeys } from "../../ui/FormKeys.tsx";
import { useEquipmentWords } from "../../words/equipment.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useWords } from "../../words/words.ts";

interface Props {
  row: RegisteredEquipment;
  onDone(): void;
  onLeave(): void;
  onTrouble(error: Error): void;
}

/** Takes a piece out of service with its cause and a reason, or puts it back with a reason. */
export function OutOfService({ row: { body, revision }, onDone, onLeave, onTrouble }: Props) {
  const { leave } = useRegisterWords();
  const words = useEquipmentWords();
  const { causes } = equipmentWords(useWords().say.language);
  const [cause, setCause] = useState<OutCause | null>(null);
  const [reason, setReason] = useState("");
  const isOut = body.out !== null;
  const act = isOut ? words.putBack : words.out;
  return (
    <form
      className="register-form"
      aria-label={act}
      onSubmit={(e) => {
        e.preventDefault();
        equipment.setOut(body.id, revision, isOut ? null : cause, reason.trim()).then(onDone, onTrouble);
      }}
    >
      <h2>{act}</h2>
      {!isOut && (
        <Choice<OutCause>
          label={act}
          chosen={cause}
          options={OUT_CAUSES.map((is) => ({ is, words: causes[is] }))}
          className="option-keys"
          classNameOfKeys="answer"
          onChoose={setCause}
        />
      )}
      <label className="field">
        <span>{isOut ? words.backWhy : words.outWhy}</span>
        <input name="reason" value={reason} maxLength={200} onChange={(e) => setReason(e.target.value)} />
      </label>
      <FormKeys
        send={words.sure}
        leave={leave}
        ready={reason.trim() !== "" && (isOut || cause !== null)}
        onLeave={onLeave}
      />
    </form>
  );
}
