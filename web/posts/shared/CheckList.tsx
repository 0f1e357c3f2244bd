import { checkApplies } from "../../../shared/session/preheat.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { ago } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import type { Panel } from "./model.ts";

/** The post's checks of this stage, done and not done. They are answered above, one at a time. */
export function CheckList({ panel }: { panel: Panel }) {
  const { state, post, now } = panel;
  const units = useUnits();
  const checks = state.type.checks.filter(
    (c) => c.post === post && c.stage === state.stage && checkApplies(state, c.id, now),
  );
  if (checks.length === 0) return null;
  const done = checks.filter((c) => state.checks[c.id]?.good).length;
  return (
    <section className="checks" aria-label="Checks of this stage">
      <h3>
        Checks of this stage: {done} of {checks.length} good
      </h3>
      <ul>
        {checks.map((c) => {
          const record = state.checks[c.id];
          const is = record === undefined ? "open" : record.good ? "good" : "bad";
          const found = record?.reading ? writtenBoth(record.reading, units) : "";
          return (
            <li key={c.id} data-is={is}>
              <span className="check-mark">
                {is === "open" ? "not done" : is === "good" ? "good" : "not good"}
              </span>
              <span>{c.words}</span>
              <span className="check-found">{record ? `${found} ${ago(now - record.at)}` : ""}</span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
