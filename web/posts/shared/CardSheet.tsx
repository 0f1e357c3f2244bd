import { useState } from "react";
import { type Choice, fill } from "../../../shared/asks/ask.ts";
import { askOf } from "../../../shared/card/asks.ts";
import { boundsOf } from "../../../shared/card/judge.ts";
import { answerAt, type CardPlace, cardKey } from "../../../shared/card/places.ts";
import { wholeCard } from "../../../shared/card/whole.ts";
import { enginesSeen } from "../../../shared/models/facing.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { AuthorsWords } from "../../ui/AuthorsWords.tsx";
import { Need } from "../../ui/Need.tsx";
import { ago } from "../../ui/numbers.ts";
import { usualFacing } from "../../ui/plan/facing.ts";
import { Sheet } from "../../ui/Sheet.tsx";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { answerKey } from "./askViews.ts";
import type { Panel } from "./model.ts";

interface Props {
  panel: Panel;
  post: Post;
  onClose(): void;
}

/** The whole card of a post, every item with its answer. A touch on an item opens it, whether its moment has come. */
export function CardSheet({ panel, post, onClose }: Props) {
  const { card: words } = useLaterWords();
  const { state } = panel;
  const [picked, setPicked] = useState<CardPlace | null>(null);
  const places = wholeCard(state, panel.now).filter((p) => p.item.post === post);
  const groups = new Map<string, CardPlace[]>();
  for (const place of places) {
    const moment = words.moments[place.item.moment];
    const name = place.engine === null ? moment : words.ofEngine(moment, place.engine);
    groups.set(name, [...(groups.get(name) ?? []), place]);
  }
  return (
    <Sheet title={words.title} onClose={onClose}>
      {picked ? (
        <OneItem panel={panel} place={picked} onDone={() => setPicked(null)} />
      ) : (
        [...groups].map(([name, items]) => (
          <section key={name} className="checks card-moment">
            <h3>{name}</h3>
            <ul>
              {items.map((place) => (
                <li key={cardKey(place.item.id, place.engine)}>
                  <ItemKey panel={panel} place={place} onPick={() => setPicked(place)} />
                </li>
              ))}
            </ul>
          </section>
        ))
      )}
    </Sheet>
  );
}

function ItemKey({ panel, place, onPick }: { panel: Panel; place: CardPlace; onPick(): void }) {
  const { card: words } = useLaterWords();
  const answer = answerAt(panel.state, place);
  const is = answer === null ? "open" : answer.good ? "good" : "bad";
  return (
    <button type="button" className="card-item" data-is={is} onClick={onPick}>
      <span className="check-mark">{words.is[is]}</span>
      <span>
        <AuthorsWords text={place.item.words} />
      </span>
      <Found panel={panel} place={place} />
    </button>
  );
}

/** The answer of an item, with who gave it and how long ago. */
function Found({ panel, place }: { panel: Panel; place: CardPlace }) {
  const { card: words } = useLaterWords();
  const units = useUnits();
  const answer = answerAt(panel.state, place);
  if (!answer) return null;
  const { kind } = place.item;
  const parts = [
    ...(answer.reading ? [writtenBoth(answer.reading, units)] : []),
    ...(answer.after !== undefined && kind.is === "alive"
      ? [words.after(answer.after, kind.within.value)]
      : []),
    words.by(answer.by.name, ago(panel.now - answer.by.at, panel.words.text)),
    ...(answer.readBy ? [words.readBy(answer.readBy.name)] : []),
    ...(answer.note ? [answer.note] : []),
  ];
  return <span className="check-found">{parts.join(", ")}</span>;
}

function OneItem({ panel, place, onDone }: { panel: Panel; place: CardPlace; onDone(): void }) {
  const { card: words } = useLaterWords();
  const { state, now, fresh, words: all } = panel;
  const [chosen, setChosen] = useState<Choice | null>(null);
  const { item, engine } = place;
  const asked = askOf(state, place);
  const waits = item.kind.is === "target" ? boundsOf(state, item) : null;
  const before = state.cardRead?.key === cardKey(item.id, engine) ? state.cardRead : null;
  const key = (choice: Choice, i: number) =>
    answerKey(state, choice, all.say.choice(choice.word, engine), `card/${i}`);
  const give = (choice: Choice, given: Parameters<typeof fill>[1]) => {
    const action = fill(choice, given);
    if (action) panel.act(action, given.confirmed);
    onDone();
  };
  if (chosen) {
    return (
      <Need
        answer={key(chosen, 0)}
        numbers={enginesSeen(state.engines.length, usualFacing(panel.post))}
        now={now}
        blocked={!fresh}
        confirm={panel.confirm}
        onGive={(given) => give(chosen, given)}
        onBack={() => setChosen(null)}
      />
    );
  }
  return (
    <section className="card-one" aria-label={item.words}>
      <h3>{all.say.ask(asked)}</h3>
      {item.clearance && <p>{item.moment === "beforeRelease" ? words.release : words.stands}</p>}
      <Found panel={panel} place={place} />
      {before && <p>{words.readBefore(before.name)}</p>}
      {waits && !waits.ok && <p className="trouble">{words.waits(waits.why)}</p>}
      <div className="answers">
        {asked.choices.map((choice, i) => {
          const { id, word, tone, offline } = key(choice, i);
          return (
            <button
              key={id}
              type="button"
              className="answer"
              data-tone={tone}
              disabled={(!fresh && !offline) || waits?.ok === false}
              onClick={() => (choice.need === null ? give(choice, {}) : setChosen(choice))}
            >
              {word}
            </button>
          );
        })}
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!fresh}
          onClick={() =>
            panel.act({ type: "readCard", item: item.id, ...(engine === null ? {} : { engine }) })
          }
        >
          {words.readOut}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onDone}>
          {words.back}
        </button>
      </div>
    </section>
  );
}
