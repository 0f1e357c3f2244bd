import "../../styles/rehearsalStrip.css";
import { useEffect, useState } from "react";
import { plain } from "../../../shared/engine/life.ts";
import { isOver, type SessionState } from "../../../shared/session/state.ts";
import { rehearsalWords } from "../../../shared/words/rehearsed.ts";
import type { SeenWorld } from "../../net/rehearsals.ts";
import type { Panel } from "../../posts/shared/model.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { CockpitControls } from "./CockpitControls.tsx";
import { Desk } from "./Desk.tsx";
import { Instruments } from "./Instruments.tsx";
import { useWorld } from "./useWorld.ts";

/** The simulated aircraft as a person sees it from their post, above their panel. */
export function RehearsalStrip({ panel }: { panel: Panel }) {
  const { state } = panel;
  const next = state.wentBackTo;
  useEffect(() => {
    // Everybody goes on together, at the moment that the instructor chose.
    if (next !== undefined) go(`/session/${next}`);
  }, [next]);
  if (isOver(state)) return <Afterwards id={state.id} />;
  return <Seen panel={panel} />;
}

/** The ways on from a rehearsal that is over. */
function Afterwards({ id }: { id: string }) {
  const words = useRehearsalWords();
  return (
    <section className="rehearsal-strip" aria-label={words.isOver}>
      <p>{words.isOver}</p>
      <div className="option-keys">
        <button type="button" className="answer" onClick={() => go(`/session/${id}/record`)}>
          {words.debrief}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/rehearse")}>
          {words.again}
        </button>
      </div>
    </section>
  );
}

function Seen({ panel }: { panel: Panel }) {
  const { state, post } = panel;
  const words = useRehearsalWords();
  const { world, lost, look } = useWorld(state.id);
  const [chosen, setChosen] = useState<number | null>(null);
  if (lost && !world) return <p className="rehearsal-strip">{words.over}</p>;
  if (!world) return null;
  const engine = chosen ?? engineOfNow(state);
  return (
    <section className="rehearsal-strip" aria-label={words.world}>
      <Sees world={world} />
      {world.word && (
        <p className="rehearsal-word" role="status">
          <span>{words.says(world.word.by)}</span>
          <q>{world.word.words}</q>
        </p>
      )}
      {world.instruments.length + world.asked.length > 0 && (
        <Instruments panel={panel} world={world} engine={engine} onEngine={setChosen} />
      )}
      {post === "cockpit" && <CockpitControls id={state.id} engine={engine} world={world} onDone={look} />}
      {post === null && <Desk state={state} world={world} onDone={look} />}
    </section>
  );
}

/** Returns the engine that something is done with now: the one on its starter, or asked for, or next. */
function engineOfNow({ engines, order }: SessionState): number {
  const busy = ["cranking", "clear", "requested", "caught"];
  const first = busy.flatMap((is) => engines.filter((e) => plain(e.life).is === is))[0];
  const waiting = order.find((n) => engines.some((e) => e.n === n && plain(e.life).is === "waiting"));
  return first?.n ?? waiting ?? order[0] ?? 1;
}

function Sees({ world }: { world: SeenWorld }) {
  const words = useRehearsalWords();
  const { faults } = rehearsalWords(useWords().say.language);
  return (
    <p className="rehearsal-sees" data-wrong={world.sees.length > 0 || undefined}>
      <span>{words.world}</span>
      <strong>
        {world.sees.length === 0
          ? words.nothing
          : world.sees
              .map(({ fault, engine }) => (engine === null ? faults[fault] : words.at(faults[fault], engine)))
              .join("; ")}
      </strong>
      {world.frozen && <em>{words.frozen}</em>}
      {world.slowed && !world.frozen && <em>{words.slowed}</em>}
    </p>
  );
}
