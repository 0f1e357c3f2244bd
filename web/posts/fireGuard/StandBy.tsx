import type { ReactNode } from "react";
import { askedOf } from "../../../shared/asks/asked.ts";
import type { Facing } from "../../../shared/models/facing.ts";
import type { SignalKind } from "../../../shared/protocol/signals.ts";
import { permissionFor } from "../../../shared/session/permissions.ts";
import { laterWords } from "../../words/later.ts";
import "../../styles/standBy.css";
import { EngineShape } from "../../ui/plan/EngineShape.tsx";
import { standByWords } from "../../words/standBy.ts";
import type { Panel } from "../shared/model.ts";
import { guardWords } from "./guardWords.ts";
import { standByView } from "./standByView.ts";

interface Props {
  panel: Panel;
  facing: Facing;
  /** Shown while no place of the guard is known. */
  otherwise: ReactNode;
}

/** The guard's screen while nothing is asked: read at 3 m, with the keys that a standing guard may need at once. */
export function StandBy({ panel, facing, otherwise }: Props) {
  const { state, now, words } = panel;
  const view = standByView(state, now, facing, words);
  if (!view || !mayReport(panel)) return otherwise;
  const says = standByWords(words.say.language);
  return (
    <section className="ask stand-by" aria-label={says.region(view.n)} data-shape={view.mark.shape}>
      <div className="stand-by-engine">
        <span className="stand-by-number">{view.n}</span>
        <EngineShape shape={view.mark.shape} />
        <h2>
          {view.mark.word}
          {view.time && (
            <span className="stand-by-time" data-over={view.mark.over || undefined}>
              {view.time}
            </span>
          )}
        </h2>
      </div>
      <p className="stand-by-duty" data-leave={view.mayLeave || undefined} aria-live="polite">
        {view.duty} <span className="stand-by-next">{view.next}</span>
      </p>
      <div className="stand-by-way">
        <svg viewBox="0 0 48 48" className="stand-by-arrow" aria-hidden="true">
          <path d="M24 2l18 20H31v24H17V22H6z" transform={`rotate(${view.out.turn} 24 24)`} />
        </svg>
        <p>
          <strong>{says.out}</strong>
          {view.out.words}
        </p>
      </div>
      <GuardKeys panel={panel} n={view.n} />
      {view.ways.length > 0 && (
        <dl className="stand-by-ways">
          {view.ways.map((w) => (
            <div key={w.to}>
              <dt>{w.to}</dt>
              <dd>{w.words}</dd>
            </div>
          ))}
        </dl>
      )}
      <p className="stand-by-said">{guardWords(panel).join(" ")}</p>
    </section>
  );
}

/** The same keys below an ask, so that a report is never out of reach. */
export function GuardKeysBelow({ panel }: { panel: Panel }) {
  const at = panel.state.guard?.engine;
  if (at === undefined || !mayReport(panel) || askedOf(panel.state, "fireGuard", panel.now).length === 0)
    return null;
  return (
    <section className="guard-keys" aria-label={laterWords(panel.words.say.language).guard.region(at)}>
      <h3>{guardWords(panel).join(" ")}</h3>
      <GuardKeys panel={panel} n={at} />
    </section>
  );
}

const mayReport = ({ state }: Panel) =>
  permissionFor({ type: "send", kind: "guardInPlace" }).stages.includes(state.stage);

/** Arc not clear, arc clear, leaving. Only what raises confidence needs a fresh link. */
function GuardKeys({ panel, n }: { panel: Panel; n: number }) {
  const says = standByWords(panel.words.say.language);
  const send = (kind: SignalKind) => () => panel.act({ type: "send", kind, engine: n, channel: "panel" });
  return (
    <div className="answers stand-by-keys">
      <button type="button" className="answer" data-tone="no" onClick={send("arcNotClear")}>
        {says.arcNotClear}
      </button>
      <button
        type="button"
        className="answer"
        data-tone="plain"
        disabled={!panel.fresh}
        onClick={send("arcClear")}
      >
        {says.arcClear}
      </button>
      <button type="button" className="answer" data-tone="plain" onClick={send("guardAway")}>
        {says.leaving(n)}
      </button>
    </div>
  );
}
