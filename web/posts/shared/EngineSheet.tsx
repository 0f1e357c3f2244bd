import { Suspense, useDeferredValue, useState } from "react";
import { fill, type Given } from "../../../shared/asks/ask.ts";
import { lifeAt } from "../../../shared/engine/lifeAt.ts";
import { engineStands } from "../../../shared/models/facing.ts";
import { engineOf } from "../../../shared/session/state.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import { later } from "../../ui/later.tsx";
import { Need } from "../../ui/Need.tsx";
import { Sheet } from "../../ui/Sheet.tsx";
import { engineOptions } from "./engineOptions.ts";
import type { Panel } from "./model.ts";

const EngineWorked = later(() => import("./WorkedOut.tsx").then((m) => m.EngineWorked));

/** Everything this post can send about one engine; opened by touching the engine. */
export function EngineSheet({ panel, n, onClose }: { panel: Panel; n: number; onClose(): void }) {
  const [open, setOpen] = useState<AnswerKey | null>(null);
  // Draw the keys first: the calculated figures take longer than a touch may.
  const working = useDeferredValue(true, false);
  const engine = engineOf(panel.state, n);
  if (!engine) return null;
  const { say, text } = panel.words;
  const place = say.stands(engineStands(n, panel.state.engines.length));
  const title = text.options.head(n, place, say.life(lifeAt(engine.life, panel.now)).toLowerCase());
  const give = (key: AnswerKey, given: Given) => {
    const action = fill(key.choice, given);
    if (action) panel.act(action);
    onClose();
  };
  return (
    <Sheet title={title} onClose={onClose}>
      {open ? (
        <Need
          answer={open}
          numbers={panel.state.engines.map((e) => e.n)}
          now={panel.now}
          blocked={!panel.fresh && !open.offline}
          confirm={panel.confirm}
          onGive={(given) => give(open, given)}
          onBack={() => setOpen(null)}
        />
      ) : (
        engineOptions(panel, n).map((group) => (
          <section key={group.title} className="options">
            <h3>{group.title}</h3>
            <div className="option-keys">
              {group.keys.map((key) => (
                <button
                  key={key.id}
                  type="button"
                  className="answer"
                  data-tone={key.tone}
                  disabled={!panel.fresh && !key.offline}
                  onClick={() => (key.choice.need === null ? give(key, {}) : setOpen(key))}
                >
                  {key.word}
                </button>
              ))}
            </div>
          </section>
        ))
      )}
      {!open && working && (
        <Suspense fallback={null}>
          <EngineWorked panel={panel} n={n} />
        </Suspense>
      )}
    </Sheet>
  );
}
