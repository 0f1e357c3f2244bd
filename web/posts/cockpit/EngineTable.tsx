import { type Engine, isTurning, plain } from "../../../shared/engine/life.ts";
import { lifeAt } from "../../../shared/engine/lifeAt.ts";
import { starterDutyAt } from "../../../shared/models/starter.ts";
import { AS_READ, chosenUnit } from "../../../shared/models/unitChoice.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { airTemperature } from "../../../shared/weather/air.ts";
import { figureAlone, written } from "../../../shared/words/quantity.ts";
import { unitWord } from "../../../shared/words/units.ts";
import { seconds, secondsLeft, together } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import type { LaterWords } from "../../words/en/later.ts";
import { useLaterWords } from "../../words/later.ts";
import { useWords } from "../../words/words.ts";

/** One figure of the table. */
interface Cell {
  words: string;
  /** True when the figure exceeds its limit. */
  over?: boolean;
  /** The figure in the unit of the instrument, when it is shown in another unit. */
  asRead?: string;
}

interface Line {
  name: string;
  of(engine: Engine): Cell;
}

/** One column for each engine in the planned order: running times against their limits, and the last readings. */
export function EngineTable({ state, now }: { state: SessionState; now: number }) {
  const engines = state.order.flatMap((n) => state.engines.filter((e) => e.n === n));
  const units = useUnits();
  const { say } = useWords();
  const later = useLaterWords();
  const words = later.engineTable;
  const readings = state.type.gauges
    .filter((g) => g.perEngine)
    .map(({ id, name, unit, scale }): Line => {
      const shown = unitWord(unit) && `, ${unitWord(chosenUnit(unit, units))}`;
      const of = (e: Engine): Cell => {
        const r = e.readings[id];
        if (!r) return { words: "–" };
        const figure = figureAlone(r, units, { step: scale.step });
        const said = r.byInstrument ? later.instruments.byInstrument(figure) : figure;
        const read = together(`${said} (${seconds(now - r.at)})`);
        if (chosenUnit(r.unit, units) === r.unit) return { words: read };
        return { words: read, asRead: written(r, AS_READ, { step: scale.step }) };
      };
      return { name: `${name}${shown}`, of };
    });
  return (
    <section className="engine-table" aria-label={words.region}>
      <h3>{words.title}</h3>
      <table aria-label={words.table}>
        <thead>
          <tr>
            <th scope="col">{words.number}</th>
            {engines.map((e) => (
              <th key={e.n} scope="col">
                {e.n} <span className="engine-table-is">{say.life(lifeAt(e.life, now))}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {[...timeLines(state, now, words), ...readings].map((line) => (
            <tr key={line.name}>
              <th scope="row">{line.name}</th>
              {engines.map((e) => {
                const { words: found, over, asRead } = line.of(e);
                return (
                  <td key={e.n} data-over={over || undefined}>
                    {found}
                    {asRead && <span className="as-read">{asRead}</span>}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Returns the lines for oil and starter of each engine, against their limits. */
function timeLines(state: SessionState, now: number, words: LaterWords["engineTable"]): Line[] {
  const { oil, starter } = state.type;
  const due = (at: number, done: boolean): Cell =>
    done ? { words: words.inTime } : { words: secondsLeft(at - now), over: now >= at };
  const duty = (e: Engine) => starterDutyAt(starter, e.starter, now, airTemperature(state));
  return [
    {
      name: words.firstOil(oil.firstIndication.within.value),
      of(e) {
        const life = plain(e.life);
        return life.is === "caught" ? due(life.firstDueAt, life.firstOilAt !== null) : { words: "–" };
      },
    },
    {
      name: words.oilNormal(oil.normal.within.value),
      of(e) {
        const life = plain(e.life);
        return life.is === "caught" ? due(life.normalDueAt, false) : { words: "–" };
      },
    },
    {
      name: words.starter,
      of(e) {
        const life = plain(e.life);
        if (life.is !== "cranking") return { words: words.max(duty(e).onMax / 1000) };
        const limit = (life.limitAt - life.since) / 1000;
        return { words: words.of(seconds(now - life.since), limit), over: now >= life.limitAt };
      },
    },
    {
      name: words.next,
      of(e) {
        if (isTurning(plain(e.life))) return { words: "–" };
        const at = duty(e).permittedAt;
        return { words: at > now ? words.in(secondsLeft(at - now)) : words.now };
      },
    },
  ];
}
