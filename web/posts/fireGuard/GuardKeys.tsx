import { permissionFor } from "../../../shared/session/permissions.ts";
import { seconds } from "../../ui/numbers.ts";
import type { Panel } from "../shared/model.ts";

/** The guard's position, and keys to renew or withdraw reports while the guard stands there. */
export function GuardKeys({ panel }: { panel: Panel }) {
  const { state, now, fresh } = panel;
  const guard = state.guard;
  if (!guard || !permissionFor({ type: "send", kind: "guardInPlace" }).stages.includes(state.stage))
    return null;
  const words = panel.words.text.guard;
  const n = guard.engine;
  const arc = state.arcs[n];
  const send = (kind: "guardInPlace" | "arcClear" | "arcNotClear" | "guardAway") =>
    panel.act({ type: "send", kind, engine: n, channel: "panel" });
  return (
    <section className="guard-keys" aria-label={words.region(n)}>
      <h3>
        {words.at(n, seconds(now - guard.at))}{" "}
        {arc ? (arc.clear ? words.arcClear : words.arcNotClear)(seconds(now - arc.at)) : words.arcUnknown}
      </h3>
      <div className="option-keys">
        <button type="button" className="answer" data-tone="no" onClick={() => send("arcNotClear")}>
          {words.notClear}
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!fresh}
          onClick={() => send("guardInPlace")}
        >
          {words.still}
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!fresh}
          onClick={() => send("arcClear")}
        >
          {words.clear}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => send("guardAway")}>
          {words.leaving(n)}
        </button>
      </div>
    </section>
  );
}
