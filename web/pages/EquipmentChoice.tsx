import "../styles/equipment.css";
import "../styles/register.css";
import { useEffect, useState } from "react";
import { barsUse } from "../../shared/house/due.ts";
import { equipmentFacts, equipmentWords } from "../../shared/words/equipment.ts";
import { equipment, type RegisteredEquipment } from "../net/equipment.ts";
import { useEquipmentWords } from "../words/equipment.ts";
import { useWords } from "../words/words.ts";
import { Fitness } from "./equipment/Fitness.tsx";

interface Props {
  /** Labels in the order in which they were touched. */
  chosen: readonly string[];
  onChosen(labels: string[]): void;
}

/** The equipment that a start can be given, and what speaks against the rest. Nothing in a house without equipment. */
export function EquipmentChoice({ chosen, onChosen }: Props) {
  const words = useEquipmentWords();
  const { language } = useWords().say;
  const { kinds } = equipmentWords(language);
  const [rows, setRows] = useState<RegisteredEquipment[]>([]);
  useEffect(() => {
    // Without an answer a start is planned without equipment: its labels are read at the stand.
    equipment.list().then(setRows, () => undefined);
  }, []);
  const offered = rows.filter((r) => r.body.out === null);
  if (offered.length === 0) return null;
  return (
    <section className="options" aria-label={words.allocate}>
      <h2>{words.allocate}</h2>
      <ul className="register-rows">
        {offered.map(({ body, faults }) => (
          <li key={body.id}>
            <label className="register-row">
              <strong className="register-id">
                <input
                  type="checkbox"
                  name={`equipment-${body.id}`}
                  checked={chosen.includes(body.id)}
                  disabled={faults.some(barsUse)}
                  onChange={(e) =>
                    onChosen(e.target.checked ? [...chosen, body.id] : chosen.filter((id) => id !== body.id))
                  }
                />
                {body.id}
              </strong>
              <span className="register-what">
                <strong>{body.name}</strong>
                <span>{[kinds[body.kind], equipmentFacts(body, language)].filter(Boolean).join(", ")}</span>
              </span>
              <Fitness faults={faults} />
            </label>
          </li>
        ))}
      </ul>
    </section>
  );
}
