import { handSignal } from "../../../shared/handSignals/all.ts";
import { figureBox } from "../../../shared/handSignals/figure.ts";
import { LOOK_ALIKES } from "../../../shared/handSignals/lookAlikes.ts";
import { MovingFigure } from "../../ui/figures/MovingFigure.tsx";
import { go } from "../route.ts";

const HEIGHT = 220;

/** Signals taken for one another, side by side and moving, with what tells them apart. */
export function Alike() {
  return (
    <div className="study-alike">
      {LOOK_ALIKES.map((l) => (
        <section
          key={l.keys.join()}
          className="alike"
          aria-label={l.keys.map((k) => handSignal(k).name).join(", ")}
        >
          <p className="alike-tell">{l.tell}</p>
          <div className="alike-row">
            {l.keys.map(handSignal).map((s) => (
              <figure key={s.key}>
                <MovingFigure
                  signal={s}
                  form="day"
                  height={HEIGHT}
                  label={s.movement}
                  width={widest(l.keys)}
                />
                <figcaption>
                  <button type="button" className="small-key" onClick={() => go(`/study/${s.key}`)}>
                    {s.name}
                  </button>
                </figcaption>
              </figure>
            ))}
          </div>
        </section>
      ))}
    </div>
  );
}

/** The widest window of the row. */
function widest(keys: readonly string[]): number {
  return Math.max(...keys.map((k) => figureBox(handSignal(k), "day").width));
}
