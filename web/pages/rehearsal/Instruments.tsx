import { askedOf } from "../../../shared/asks/asked.ts";
import { gaugeBand } from "../../../shared/models/gaugeBand.ts";
import { written } from "../../../shared/words/quantity.ts";
import type { SeenWorld } from "../../net/rehearsals.ts";
import type { Panel } from "../../posts/shared/model.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";

interface Props {
  panel: Panel;
  world: SeenWorld;
  engine: number;
  onEngine(n: number): void;
}

/** The simulated instruments of one engine and of the aircraft: each a number with its band in words. */
export function Instruments({ panel, world, engine, onEngine }: Props) {
  const words = useRehearsalWords();
  const { state, post, now } = panel;
  const asks = post === null ? [] : askedOf(state, post, now);
  const asked = world.asked.flatMap(({ ask, reading }) => {
    const found = asks.find(({ key }) => key === ask);
    return found ? [{ key: ask, what: panel.words.say.ask(found), reading }] : [];
  });
  const byEngine = world.instruments.some((i) => i.engine !== null);
  const shown = world.instruments.filter((i) => i.engine === engine || i.engine === null);
  return (
    <div className="rehearsal-instruments">
      <div className="option-keys">
        {(byEngine ? state.engines : []).map(({ n }) => (
          <button
            key={n}
            type="button"
            className="small-key"
            aria-pressed={n === engine}
            onClick={() => onEngine(n)}
          >
            {words.engine(n)}
          </button>
        ))}
      </div>
      <dl>
        {shown.map(({ gauge, reading }) => {
          const marks = state.type.gauges.find((g) => g.id === gauge);
          const band = marks && gaugeBand(marks, reading);
          const is = band?.ok ? band.value : null;
          return (
            <div key={gauge} data-band={is ?? undefined}>
              <dt>{marks?.name ?? words.besides[gauge as keyof typeof words.besides]}</dt>
              <dd>
                <b>{written(reading)}</b>
                {is && <span>{words.bands[is]}</span>}
              </dd>
            </div>
          );
        })}
        {asked.map(({ key, what, reading }) => (
          <div key={key} className="rehearsal-asked">
            <dt>{what}</dt>
            <dd>
              <b>{written(reading)}</b>
            </dd>
          </div>
        ))}
      </dl>
    </div>
  );
}
