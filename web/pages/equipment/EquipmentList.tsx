import { useState } from "react";
import { equipmentFacts, equipmentWords } from "../../../shared/words/equipment.ts";
import { equipment, type RegisteredEquipment } from "../../net/equipment.ts";
import type { Me } from "../../net/keep.ts";
import { useEquipmentWords } from "../../words/equipment.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { SidePage } from "../SidePage.tsx";
import { useRenewed } from "../useRenewed.ts";
import { Fitness } from "./Fitness.tsx";

/** All equipment of the house: first what is in service, then the rest. */
export function EquipmentList({ me, changed }: { me: Me; changed: number }) {
  const words = useEquipmentWords();
  const { ramp } = useWords().text;
  const [rows, setRows] = useState<RegisteredEquipment[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  useRenewed(changed, () => void equipment.list().then(setRows, setTrouble));
  const may = me.mayHold.includes("supervisor");
  const out = rows?.filter((r) => r.body.out !== null) ?? [];
  return (
    <SidePage
      title={words.title}
      lead={words.lead}
      trouble={trouble}
      keys={
        may && (
          <button type="button" className="answer" data-tone="yes" onClick={() => go("/equipment/new")}>
            {words.add}
          </button>
        )
      }
    >
      {rows === null && trouble === null && <p className="empty">{ramp.asking}</p>}
      {rows?.length === 0 && <p className="empty">{may ? words.noneHere : words.none}</p>}
      <Rows rows={rows?.filter((r) => r.body.out === null) ?? []} />
      {out.length > 0 && (
        <section className="own" aria-label={words.outOnes}>
          <h2>{words.outOnes}</h2>
          <Rows rows={out} />
        </section>
      )}
    </SidePage>
  );
}

function Rows({ rows }: { rows: readonly RegisteredEquipment[] }) {
  const { language } = useWords().say;
  const { kinds } = equipmentWords(language);
  if (rows.length === 0) return null;
  return (
    <ul className="register-rows">
      {rows.map(({ body, faults }) => (
        <li key={body.id}>
          <button type="button" className="register-row" onClick={() => go(`/equipment/${body.id}`)}>
            <strong className="register-id">{body.id}</strong>
            <span className="register-what">
              <strong>{body.name}</strong>
              <span>{[kinds[body.kind], equipmentFacts(body, language)].filter(Boolean).join(", ")}</span>
              {body.place !== null && <span>{body.place}</span>}
            </span>
            <Fitness faults={faults} />
          </button>
        </li>
      ))}
    </ul>
  );
}
