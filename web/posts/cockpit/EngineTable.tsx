import { starterDutyAt } from "../../../shared/models/starter.ts";
import { AS_READ, chosenUnit } from "../../../shared/models/unitChoice.ts";
import { airTemperature } from "../../../shared/session/air.ts";
import { type Engine, isTurning, plain, type SessionState } from "../../../shared/session/state.ts";
import { say } from "../../../shared/words/en.ts";
import { figureAlone, written } from "../../../shared/words/quantity.ts";
import { unitWord } from "../../../shared/words/units.ts";
import { seconds, secondsLeft } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";

/** Every engine in the planned order with its running times against their limits, and its last readings. */
export function EngineTable({ state, now }: { state: SessionState; now: number }) {
  const rows = state.order.flatMap((n) => state.engines.filter((e) => e.n === n));
  const gauges = state.type.gauges.filter((g) => g.perEngine);
  const units = useUnits();
  const first = state.type.oil.firstIndication.within.value;
  const normal = state.type.oil.normal.within.value;
  return (
    <section className="engine-table" aria-label="Engines">
      <h3>Engines in order, times against their limits</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <section className="table-scroll" aria-label="Engines, table" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th>No.</th>
              <th>State</th>
              <th>Starter</th>
              <th>First oil, {first} s</th>
              <th>Oil normal, {normal} s</th>
              <th>Next crank</th>
              {gauges.map((g) => (
                <th key={g.id}>
                  {g.name}
                  {unitWord(g.unit) && `, ${unitWord(chosenUnit(g.unit, units))}`}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((e) => (
              <tr key={e.n}>
                <th scope="row">{e.n}</th>
                <td>{say.life(e.life)}</td>
                <Times state={state} engine={e} now={now} />
                {gauges.map((g) => {
                  const r = e.readings[g.id];
                  return (
                    <td key={g.id}>
                      {r ? `${figureAlone(r, units, { step: g.scale.step })} (${seconds(now - r.at)})` : "–"}
                      {r && chosenUnit(r.unit, units) !== r.unit && (
                        <span className="as-read">{written(r, AS_READ, { step: g.scale.step })}</span>
                      )}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}

function Times({ state, engine, now }: { state: SessionState; engine: Engine; now: number }) {
  const life = plain(engine.life);
  const duty = starterDutyAt(state.type.starter, engine.starter, now, airTemperature(state));
  const cranked = life.is === "cranking";
  const limit = cranked ? (life.limitAt - life.since) / 1000 : duty.onMax / 1000;
  const oil = (dueAt: number, done: boolean) => (done ? "in time" : secondsLeft(dueAt - now));
  return (
    <>
      <td data-over={(cranked && now >= life.limitAt) || undefined}>
        {cranked ? `${seconds(now - life.since)} of ${limit} s` : `max ${limit} s`}
      </td>
      {life.is === "caught" ? (
        <>
          <td data-over={(life.firstOilAt === null && now >= life.firstDueAt) || undefined}>
            {oil(life.firstDueAt, life.firstOilAt !== null)}
          </td>
          <td data-over={now >= life.normalDueAt || undefined}>{oil(life.normalDueAt, false)}</td>
        </>
      ) : (
        <>
          <td>–</td>
          <td>–</td>
        </>
      )}
      <td>
        {isTurning(life) ? "–" : duty.permittedAt > now ? `in ${secondsLeft(duty.permittedAt - now)}` : "now"}
      </td>
    </>
  );
}
