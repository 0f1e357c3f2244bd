import { handSignal } from "../../../shared/handSignals/all.ts";
import { figureBox } from "../../../shared/handSignals/figure.ts";
import { LOOK_ALIKES } from "../../../shared/handSignals/lookAlikes.ts";
import { signalWords, tellsIn } from "../../../shared/words/handSignals.ts";
import { MovingFigure } from "../../ui/figures/MovingFigure.tsx";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

const HEIGHT = 220;

/** Hand signals easily mistaken for one another, side by side and in motion, with their differences. */
export function Alike() {
  const { language } = useWords().say;
  const tells = tellsIn(language);
  const name = (key: string) => signalWords(handSignal(key), language).name;
  return (
    <div className="study-alike">
      {LOOK_ALIKES.map((l, i) => (
        <section key={l.keys.join()} className="alike" aria-label={l.keys.map(name).join(", ")}>
          <p className="alike-tell">{tells[i]}</p>
          <div className="alike-row">
            {l.keys.map(handSignal).map((s) => (
              <figure key={s.key}>
                <MovingFigure
                  signal={s}
                  form="day"
                  height={HEIGHT}
                  label={signalWords(s, language).movement}
                  width={widest(l.keys)}
                />
                <figcaption>
                  <button type="button" className="small-key" onClick={() => go(`/study/${s.key}`)}>
                    {name(s.key)}
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

/** Returns the width of the widest view box in the row. */
function widest(keys: readonly string[]): number {
  return Math.max(...keys.map((k) => figureBox(handSignal(k), "day").width));
}
