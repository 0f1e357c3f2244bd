import { useCallback, useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { equipmentFacts, equipmentWords } from "../../../shared/words/equipment.ts";
import { type EquipmentChange, equipment, type RegisteredEquipment } from "../../net/equipment.ts";
import type { Me } from "../../net/keep.ts";
import { Qr } from "../../ui/Qr.tsx";
import { useEquipmentWords } from "../../words/equipment.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { EquipmentForm } from "./EquipmentForm.tsx";
import { textOfEquipment } from "./entry.ts";
import { Fitness } from "./Fitness.tsx";
import { OutOfService } from "./OutOfService.tsx";

/** One piece of equipment: its facts, whether it can be used, its label to print, and every change. */
export function EquipmentPage({ id, me }: { id: string; me: Me }) {
  const words = useEquipmentWords();
  const { say, text } = useWords();
  const { language } = say;
  const { kinds } = equipmentWords(language);
  const [row, setRow] = useState<RegisteredEquipment | null>(null);
  const [changes, setChanges] = useState<EquipmentChange[]>([]);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [doing, setDoing] = useState<"change" | "out" | null>(null);
  const read = useCallback(() => {
    setDoing(null);
    setTrouble(null);
    equipment.one(id).then(setRow, setTrouble);
    equipment.changes(id).then(setChanges, setTrouble);
  }, [id]);
  useEffect(read, [read]);
  if (!row)
    return (
      <SidePage title={id} lead="" trouble={trouble}>
        {trouble === null && <p className="empty">{text.ramp.asking}</p>}
      </SidePage>
    );
  const { body, revision, faults } = row;
  const supervisor = me.mayHold.includes("supervisor");
  const mayOut = body.out === null ? me.mayHold.length > 0 : supervisor;
  const plain = (word: string, onClick: () => void) => (
    <button type="button" className="answer" data-tone="plain" onClick={onClick}>
      {word}
    </button>
  );
  return (
    <SidePage
      title={body.id}
      lead={body.name}
      trouble={trouble}
      keys={plain(words.back, () => go("/equipment"))}
    >
      {doing === "change" && (
        <EquipmentForm
          kind={body.kind}
          begin={textOfEquipment(body)}
          fresh={false}
          onSave={(entry) => equipment.change(entry, revision).then(read)}
          onTrouble={setTrouble}
          keys={plain(text.options.close, () => setDoing(null))}
        />
      )}
      {doing === "out" && (
        <OutOfService row={row} onDone={read} onLeave={() => setDoing(null)} onTrouble={setTrouble} />
      )}
      {doing === null && (
        <>
          <div className="equipment-one">
            <section className="register-standing" aria-label={words.title}>
              <Fitness faults={faults} />
              <p>{kinds[body.kind]}</p>
              <p>{equipmentFacts(body, language)}</p>
              {body.place !== null && <p>{body.place}</p>}
              {body.notes !== null && <p>{body.notes}</p>}
            </section>
            <section className="equipment-label" aria-label={words.labelOf(body.id)}>
              <Qr text={`${location.origin}/equipment/${body.id}`} label={words.labelOf(body.id)} />
              <strong>{body.id}</strong>
              <span>{body.name}</span>
            </section>
          </div>
          <nav className="head-keys register-keys" aria-label={words.title}>
            {plain(words.printLabel, () => print())}
            {supervisor && plain(words.change, () => setDoing("change"))}
            {mayOut && plain(body.out === null ? words.out : words.putBack, () => setDoing("out"))}
          </nav>
          <section className="own equipment-history" aria-label={words.history}>
            <h2>{words.history}</h2>
            <ol className="register-changes">
              {changes.map(({ revision: n, at, by, reason }) => (
                <li key={n}>
                  <span className="register-when">
                    {words.by(by === "console" ? words.console : by, dayAndMinute(at, language))}
                  </span>
                  <span>{n === 1 ? words.entered : words.changed}</span>
                  {reason !== null && <span className="register-why">{reason}</span>}
                </li>
              ))}
            </ol>
          </section>
        </>
      )}
    </SidePage>
  );
}
