import "../../styles/register.css";
import type { RegisteredAircraft } from "../../net/aircraft.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { go } from "../route.ts";

interface Props {
  /** The aircraft in service; none of them can be rehearsed. */
  rows: readonly RegisteredAircraft[];
  /** Whether the person who reads it can do what is missing. */
  supervisor: boolean;
}

/** Says what a house lacks before its first rehearsal, and who does it. Leads a supervisor there. */
export function NothingToRehearse({ rows, supervisor }: Props) {
  const words = useRehearsalWords();
  const register = useRegisterWords();
  return (
    <>
      <section className="register-notice" aria-label={words.noAircraft}>
        <h2>{words.noAircraft}</h2>
        <p>{rows.length === 0 ? words.noAircraftWhat : words.allBarred}</p>
        {supervisor ? (
          <div className="option-keys">
            <button type="button" className="answer" data-tone="yes" onClick={() => go("/types")}>
              {register.toTypes}
            </button>
            <button type="button" className="answer" data-tone="plain" onClick={() => go("/aircraft")}>
              {register.title}
            </button>
          </div>
        ) : (
          <p>{words.askSupervisor}</p>
        )}
      </section>
      {rows.length > 0 && (
        <ul className="barred-rows">
          {rows.map(({ id, name, bar }) => (
            <li key={id}>
              <button type="button" className="barred-row" onClick={() => go(`/aircraft/${id}`)}>
                <strong>{name}</strong>
                <span>{bar && `${register.bar(bar)}. ${register.cure(bar)}`}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
