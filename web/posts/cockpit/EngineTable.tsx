import { starterDutyAt } from "../../../shared/models/starter.ts";
import { AS_READ, chosenUnit } from "../../../shared/models/unitChoice.ts";
import { airTemperature } from "../../../shared/session/air.ts";
import { type Engine, isTurning, plain, type SessionState } from "../../../shared/session/state.ts";
import { figureAlone, written } from "../../../shared/words/quantity.ts";
import { unitWord } from "../../../shared/words/units.ts";
import { seconds, secondsLeft } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import { useWords } from "../../words/words.ts";

/** Every engine in the planned order with its running times against their limits, and its last readings. */
export function EngineTable({ state, now }: { state: SessionState; now: number }) {
  const rows = state.order.flatMap((n) => state.engines.filter((e) => e.n === n));
  const gauges = state.type.gauges.filter((g) => g.perEngine);
  const units = useUnits();
  const { say, text } = useWords();
  const words = text.engines;
  const first = state.type.oil.firstIndication.within.value;
  const normal = state.type.oil.normal.within.value;
  return (
    <section className="engine-table" aria-label={words.region}>
      <h3>{words.title}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <section className="table-scroll" aria-label={words.table} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th>{words.number}</th>
              <th>{words.state}</th>
              <th>{words.starter}</th>
              <th>{words.firstOil(first)}</th>
              <th>{words.oilNormal(normal)}</th>
              <th>{words.next}</th>
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
  const { engines: words } = useWords().text;
  const life = plain(engine.life);
  const duty = starterDutyAt(state.type.starter, engine.starter, now, airTemperature(state));
  const cranked = life.is === "cranking";
  const limit = cranked ? (life.limitAt - life.since) / 1000 : duty.onMax / 1000;
  const oil = (dueAt: number, done: boolean) => (done ? words.inTime : secondsLeft(dueAt - now));
  return (
    <>
      <td data-over={(cranked && now >= life.limitAt) || undefined}>
        {cranked ? words.of(seconds(now - life.since), limit) : words.max(limit)}
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
        {isTurning(life)
          ? "–"
          : duty.permittedAt > now
            ? words.in(secondsLeft(duty.permittedAt - now))
            : words.now}
      </td>
    </>
  );
}
