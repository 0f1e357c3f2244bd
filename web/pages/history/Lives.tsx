import { useEffect, useState } from "react";
import type { LivesOf } from "../../../shared/history/lives/lives.ts";
import type { Survival } from "../../../shared/history/lives/survival.ts";
import { type HouseLives, histories } from "../../net/history.ts";
import { CurveChart } from "../../ui/charts/CurveChart.tsx";
import { useWidth } from "../../ui/charts/useWidth.ts";
import { useLivesWords } from "../../words/lives.ts";
import { FileKey } from "./FileKey.tsx";

interface Props {
  /** The kinds that are shown; all of them by default. */
  only?: readonly LivesOf[];
  onTrouble(error: Error): void;
}

/** The lives of the house's starters, carts and extinguishers in starts: in words, as a chart and as a table. */
export function Lives({ only, onTrouble }: Props) {
  const words = useLivesWords();
  const [lives, setLives] = useState<HouseLives | null>(null);
  const [frame, width] = useWidth<HTMLElement>();
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once
  useEffect(() => {
    histories.lives().then(setLives, onTrouble);
  }, []);
  return (
    <section className="own" aria-label={words.title} ref={frame}>
      <h2>{words.title}</h2>
      {lives?.more && <p>{words.more(lives.most)}</p>}
      {lives?.all
        .filter(({ of }) => only?.includes(of) ?? true)
        .map((survival) => (
          <OneKind key={survival.of} survival={survival} width={width} />
        ))}
      {lives && (
        <FileKey path="/api/house/lives?as=csv" name="lives" word={words.table} onTrouble={onTrouble} />
      )}
    </section>
  );
}

function OneKind({ survival, width }: { survival: Survival; width: number }) {
  const words = useLivesWords();
  const { of, lives, steps, weibull } = survival;
  const name = words.of[of];
  const most = Math.max(1, ...lives.map((l) => l.starts));
  const curve = (key: "value" | "low" | "high") =>
    (weibull?.curve ?? []).map((p) => ({ x: p.starts, y: p[key] }));
  return (
    <section className="figure-charts" aria-label={name}>
      <h3>{name}</h3>
      {saidOf(survival, words).map((line) => (
        <p key={line} className="figure-words">
          {line}
        </p>
      ))}
      {width > 0 && steps.length > 0 && (
        <figure>
          <figcaption>{words.chartIs[weibull ? "fitted" : "counted"]}</figcaption>
          <CurveChart
            most={{ x: most, y: 1 }}
            steps={[{ x: 0, y: 1 }, ...steps.map((s) => ({ x: s.starts, y: s.survival }))]}
            law={curve("value")}
            low={curve("low")}
            high={curve("high")}
            width={width}
            across={[words.noStarts, words.mostStarts(most)]}
            up={[words.nobody, words.inUse]}
          />
        </figure>
      )}
      {lives.length > 0 && (
        <details>
          <summary>{words.lifeTable(name)}</summary>
          <table className="history-table">
            <thead>
              <tr>
                {[words.item, words.startsAs, words.ended].map((head) => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lives.map((life) => (
                <tr key={`${life.id} ${life.last}`}>
                  <td>{life.id}</td>
                  <td className="history-figure">{life.starts}</td>
                  <td>{life.failed ? words.failed : words.watched}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
    </section>
  );
}

/** Returns what is known of one kind, a sentence each. */
function saidOf(
  { of, lives, failures, least, weibull }: Survival,
  words: ReturnType<typeof useLivesWords>,
): string[] {
  if (lives.length === 0) return [words.none];
  const counted = [words.counted(lives.length, failures), words.failsAs[of]];
  if (failures < least) return [...counted, words.few(least)];
  if (weibull === null) return [...counted, words.noLaw];
  const { scale, shape } = weibull;
  const three = ({ value, low, high }: typeof scale, digits: number) =>
    [value.toFixed(digits), low.toFixed(digits), high.toFixed(digits)] as const;
  const wears = shape.low > 1 ? words.wears.more : shape.high < 1 ? words.wears.less : words.wears.unknown;
  return [...counted, words.scale(...three(scale, 0)), `${words.shape(...three(shape, 2))} ${wears}`];
}
