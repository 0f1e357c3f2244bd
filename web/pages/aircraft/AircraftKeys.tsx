import type { RegisteredAircraft } from "../../net/aircraft.ts";
import type { Me } from "../../net/keep.ts";
import { useLaterWords } from "../../words/later.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import type { Doing } from "./acts.ts";

interface Props {
  row: RegisteredAircraft;
  me: Me;
  onDo(doing: Doing): void;
}

/** The keys for what this person can do with the aircraft. A key that would not work is left out. */
export function AircraftKeys({ row, me, onDo }: Props) {
  const words = useRegisterWords();
  const { ramp } = useWords().text;
  const { rampPage } = useLaterWords();
  const supervisor = me.mayHold.includes("supervisor");
  const plans = supervisor || me.mayHold.includes("cockpit");
  return (
    <nav className="head-keys register-keys" aria-label={words.title}>
      {plans && row.bar === null && (
        <button
          type="button"
          className="answer"
          data-tone="yes"
          onClick={() => go(`/plan?aircraft=${row.id}`)}
        >
          {ramp.plan}
        </button>
      )}
      {row.bar === null && (
        <button
          type="button"
          className="answer"
          data-tone="plain"
          onClick={() => go(`/rehearse?aircraft=${row.id}`)}
        >
          {rampPage.rehearse}
        </button>
      )}
      {plans && !row.retired && (
        <button type="button" className="answer" data-tone="plain" onClick={() => onDo("hours")}>
          {words.enterHours}
        </button>
      )}
      {supervisor && (
        <>
          <button type="button" className="answer" data-tone="plain" onClick={() => onDo("change")}>
            {words.change}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => onDo("retire")}>
            {row.retired ? words.takeBack : words.retire}
          </button>
        </>
      )}
    </nav>
  );
}
