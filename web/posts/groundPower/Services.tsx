import { useState } from "react";
import { fill, type Given } from "../../../shared/asks/ask.ts";
import type { AnswerKey } from "../../ui/askView.ts";
import { Need } from "../../ui/Need.tsx";
import type { Panel } from "../shared/model.ts";
import { serviceOptions } from "../shared/serviceOptions.ts";

/** Requests and reports that this post may send without being asked. */
export function Services({ panel }: { panel: Panel }) {
  const [open, setOpen] = useState<AnswerKey | null>(null);
  const keys = serviceOptions(panel);
  if (keys.length === 0) return null;
  const give = (key: AnswerKey, given: Given) => {
    const action = fill(key.choice, given);
    if (action) panel.act(action);
    setOpen(null);
  };
  return (
    <section className="options">
      <h3>{panel.words.text.ground.title}</h3>
      {open ? (
        <Need
          answer={open}
          numbers={[]}
          now={panel.now}
          blocked={!panel.fresh && !open.offline}
          confirm={panel.confirm}
          onGive={(given) => give(open, given)}
          onBack={() => setOpen(null)}
        />
      ) : (
        <div className="option-keys">
          {keys.map((k) => (
            <button
              key={k.id}
              type="button"
              className="answer"
              data-tone="plain"
              disabled={!panel.fresh && !k.offline}
              onClick={() => (k.choice.need === null ? give(k, {}) : setOpen(k))}
            >
              {k.word}
            </button>
          ))}
        </div>
      )}
    </section>
  );
}
