import { permissionFor } from "../../../shared/session/permissions.ts";
import type { Panel } from "../shared/model.ts";
import { guardWords } from "./guardWords.ts";

/** The guard's position, and keys to renew or withdraw reports while the guard stands there. */
export function GuardKeys({ panel }: { panel: Panel }) {
  const { state, fresh } = panel;
  const guard = state.guard;
  if (!guard || !permissionFor({ type: "send", kind: "guardInPlace" }).stages.includes(state.stage))
    return null;
  const words = panel.words.text.guard;
  const n = guard.engine;
  const send = (kind: "guardInPlace" | "arcClear" | "arcNotClear" | "guardAway") =>
    panel.act({ type: "send", kind, engine: n, channel: "panel" });
  return (
    <section className="guard-keys" aria-label={words.region(n)}>
      <h3>{guardWords(panel).join(" ")}</h3>
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
