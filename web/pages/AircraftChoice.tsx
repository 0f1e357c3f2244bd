import "../styles/register.css";
import type { RegisteredAircraft } from "../net/aircraft.ts";
import { Choice } from "../ui/Choice.tsx";
import { usePlannedWords } from "../words/planned.ts";
import { useRegisterWords } from "../words/register.ts";
import { go } from "./route.ts";

interface Props {
  /** Null while they are fetched. */
  rows: readonly RegisteredAircraft[] | null;
  chosen: string | null;
  onChoose(row: RegisteredAircraft): void;
  /** True while nothing has arrived and nothing has failed. */
  asking: boolean;
}

/** The aircraft a start can be planned of, then the others in service with the reason. */
export function AircraftChoice({ rows, chosen, onChoose, asking }: Props) {
  const { planning } = usePlannedWords();
  const words = useRegisterWords();
  const inService = rows?.filter((a) => !a.retired) ?? [];
  const free = inService.filter((a) => a.bar === null);
  const barred = inService.filter((a) => a.bar !== null);
  return (
    <div className="options" data-asking={asking || undefined}>
      {rows !== null && inService.length === 0 && (
        <div className="register-notice" role="status">
          <p>{words.none}</p>
          <button type="button" className="answer" data-tone="yes" onClick={() => go("/aircraft")}>
            {words.title}
          </button>
        </div>
      )}
      <Choice
        label={planning.aircraft}
        chosen={chosen}
        options={free.map((a) => ({
          is: a.id,
          words: (
            <>
              <strong>{a.name}</strong>
              <span>{a.typeName}</span>
            </>
          ),
        }))}
        className="option-keys"
        classNameOfKeys="answer answer-two"
        onChoose={(id) => {
          const row = free.find((a) => a.id === id);
          if (row) onChoose(row);
        }}
      />
      {barred.length > 0 && (
        <ul className="barred-rows">
          {barred.map((a) => (
            <li key={a.id}>
              <button type="button" className="barred-row" onClick={() => go(`/aircraft/${a.id}`)}>
                <strong>{a.name}</strong>
                <span>{a.bar && `${words.bar(a.bar)}. ${words.cure(a.bar)}`}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
