import { inStart } from "../../../shared/checks/inStart.ts";
import { postFor } from "../../../shared/checks/post.ts";
import { checkApplies } from "../../../shared/checks/preheat.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { AuthorsWords } from "../../ui/AuthorsWords.tsx";
import { ago } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import type { Panel } from "./model.ts";

/** The post's checks of this stage, done and open. The person answers them one at a time in the ask above. */
export function CheckList({ panel }: { panel: Panel }) {
  const { state, post, now } = panel;
  const { text } = panel.words;
  const words = text.checks;
  const units = useUnits();
  const checks = state.type.checks.filter(
    (c) =>
      postFor(state, c) === post &&
      inStart(state, c) &&
      c.stage === state.stage &&
      checkApplies(state, c.id, now),
  );
  if (checks.length === 0) return null;
  const done = checks.filter((c) => state.checks[c.id]?.good).length;
  return (
    <section className="checks" aria-label={words.title}>
      <h3>{words.done(done, checks.length)}</h3>
      <ul>
        {checks.map((c) => {
          const record = state.checks[c.id];
          const is = record === undefined ? "open" : record.good ? "good" : "bad";
          const found = record?.reading ? writtenBoth(record.reading, units) : "";
          return (
            <li key={c.id} data-is={is}>
              <span className="check-mark">{words[is]}</span>
              <span>
                <AuthorsWords text={c.words} />
              </span>
              <span className="check-found">{record ? `${found} ${ago(now - record.at, text)}` : ""}</span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
