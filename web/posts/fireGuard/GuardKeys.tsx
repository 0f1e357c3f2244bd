import { permissionFor } from "../../../shared/session/permissions.ts";
import { seconds } from "../../ui/numbers.ts";
import type { Panel } from "../shared/model.ts";

/** Where I stand, and what I can renew or take back at any time while I stand there. */
export function GuardKeys({ panel }: { panel: Panel }) {
  const { state, now, fresh } = panel;
  const guard = state.guard;
  if (!guard || !permissionFor({ type: "send", kind: "guardInPlace" }).stages.includes(state.stage))
    return null;
  const n = guard.engine;
  const arc = state.arcs[n];
  const send = (kind: "guardInPlace" | "arcClear" | "arcNotClear" | "guardAway") =>
    panel.act({ type: "send", kind, engine: n, channel: "panel" });
  return (
    <section className="guard-keys" aria-label={`I stand at number ${n}`}>
      <h3>
        I stand at number {n}, said {seconds(now - guard.at)} ago.{" "}
        {arc
          ? `Arc ${arc.clear ? "clear" : "not clear"}, said ${seconds(now - arc.at)} ago.`
          : "Arc not reported."}
      </h3>
      <div className="option-keys">
        <button type="button" className="answer" data-tone="no" onClick={() => send("arcNotClear")}>
          Arc not clear
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!fresh}
          onClick={() => send("guardInPlace")}
        >
          Still in place
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!fresh}
          onClick={() => send("arcClear")}
        >
          Arc clear
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => send("guardAway")}>
          Leaving number {n}
        </button>
      </div>
    </section>
  );
}
