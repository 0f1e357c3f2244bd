import type { AircraftType } from "../../../shared/types/schema.ts";
import type { RegisteredAircraft } from "../../net/aircraft.ts";
import { Plan } from "../../ui/plan/Plan.tsx";
import type { EngineMark, PlanView } from "../../ui/plan/planView.ts";
import { useRegisterWords } from "../../words/register.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

interface Props {
  row: RegisteredAircraft;
  /** The version it is on; null when it cannot be read. */
  type: AircraftType | null;
  engines: readonly number[];
}

/** The parts fitted at each engine's place, beside the drawing of the type. */
export function FittedTable({ row, type, engines }: Props) {
  const words = useRegisterWords();
  const { plan } = useWords().text;
  const hoursAt = (hours: number | null | undefined) =>
    hours === null || hours === undefined ? "" : words.hours(hours.toFixed(1));
  const of = (n: number) => row.fitted.find((f) => f.n === n);
  return (
    <section className="fitted" aria-label={words.fitted}>
      <h2>{words.fitted}</h2>
      {type && (
        <Plan
          view={viewOf(type, (n) => hoursAt(of(n)?.engine.hours))}
          facing="forward"
          words={plan.forward}
        />
      )}
      <ul className="fitted-rows">
        {engines.map((n) => {
          const fitted = of(n);
          return (
            <li key={n}>
              <strong className="fitted-number" title={words.engine(n)}>
                {n}
              </strong>
              <dl>
                <Part
                  label={words.engineAs}
                  serial={fitted?.engine.serial}
                  hours={hoursAt(fitted?.engine.hours)}
                />
                <Part
                  label={words.propellerAs}
                  serial={fitted?.propeller.serial}
                  hours={hoursAt(fitted?.propeller.hours)}
                />
                <Part label={words.starter} serial={fitted?.starter} />
              </dl>
              {fitted?.engine.serial && <EngineKey serial={fitted.engine.serial} />}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** A key that opens the history of the engine fitted there. */
function EngineKey({ serial }: { serial: string }) {
  const words = useRegisterWords();
  return (
    <button
      type="button"
      className="small-key fitted-history"
      onClick={() => go(`/engines/${encodeURIComponent(serial)}`)}
    >
      {words.engineHistory(serial)}
    </button>
  );
}

interface PartProps {
  label: string;
  serial: string | null | undefined;
  /** In words; empty for a part that has none. */
  hours?: string;
}

function Part({ label, serial, hours = "" }: PartProps) {
  const words = useRegisterWords();
  return (
    <div>
      <dt>{label}</dt>
      <dd>{serial ?? <span className="not-entered">{words.unknown}</span>}</dd>
      <dd className="fitted-hours">{hours}</dd>
    </div>
  );
}

/** @param words what stands at each engine on the drawing */
function viewOf(type: AircraftType, words: (n: number) => string): PlanView {
  const engines = type.engines.map(
    ({ n, x, y }): EngineMark => ({
      ...{ n, x, y, word: words(n), shape: "none", count: null, over: false, turning: false, asked: false },
    }),
  );
  const power = { is: "unknown", words: "" } as const;
  return { type, engines, guardAt: null, chocks: "unknown", cart: false, power };
}
