import "../../styles/equipment.css";
import { useState } from "react";
import { LABEL_MOST, labelIn } from "../../../shared/protocol/equipmentKinds.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { equipmentFacts, equipmentWords } from "../../../shared/words/equipment.ts";
import type { Panel } from "../../posts/shared/model.ts";
import { Sheet } from "../../ui/Sheet.tsx";
import { useEquipmentWords } from "../../words/equipment.ts";
import { Scanner } from "./Scanner.tsx";
import { canScan } from "./scan.ts";

/** The equipment of a start: what was planned, what was read at the stand, and the entry of another label. */
export function StandSheet({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const words = useEquipmentWords();
  const { language } = panel.words.say;
  const { kinds } = equipmentWords(language);
  const [typed, setTyped] = useState("");
  const [scanning, setScanning] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  const all = panel.state.equipment ?? [];
  const give = (text: string) => {
    const label = labelIn(text);
    setWrong(label === null ? words.notALabel(text.slice(0, 40)) : null);
    if (label === null || !panel.act({ type: "showEquipment", label })) return;
    setTyped("");
    setScanning(false);
  };
  return (
    <Sheet title={words.atStand} onClose={onClose}>
      <div className="stand-equipment">
        <p>{words.atStandWhat}</p>
        {all.length === 0 && <p className="empty">{words.nothingHere}</p>}
        <ul>
          {all.map(({ facts, shown }) => (
            <li key={facts.id}>
              <strong>{facts.id}</strong>
              <span>
                {[facts.name, kinds[facts.kind], equipmentFacts(facts, language)].filter(Boolean).join(", ")}
              </span>
              <span>{shown ? words.shownBy(timeOfDay(shown.at), shown.name) : words.planned}</span>
            </li>
          ))}
        </ul>
        {scanning && (
          <Scanner
            onRead={give}
            onFailed={() => {
              setScanning(false);
              setWrong(words.noCamera);
            }}
          />
        )}
        <form
          className="join"
          onSubmit={(e) => {
            e.preventDefault();
            give(typed);
          }}
        >
          <label className="field">
            <span>{words.typed}</span>
            <input
              name="label"
              value={typed}
              maxLength={LABEL_MOST}
              autoComplete="off"
              autoCapitalize="characters"
              spellCheck={false}
              onChange={(e) => setTyped(e.target.value.toUpperCase())}
            />
          </label>
          <button
            type="submit"
            className="answer"
            data-tone="yes"
            disabled={!panel.fresh || panel.post === null || typed.trim() === ""}
          >
            {words.enter}
          </button>
          {canScan() && (
            <button
              type="button"
              className="answer"
              data-tone="plain"
              disabled={panel.post === null}
              onClick={() => setScanning(!scanning)}
            >
              {scanning ? words.scanStop : words.scan}
            </button>
          )}
        </form>
        {wrong !== null && <p role="alert">{wrong}</p>}
      </div>
    </Sheet>
  );
}
