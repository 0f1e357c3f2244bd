import { Suspense, useState } from "react";
import { type Ask, fill, offer } from "../../../shared/asks/ask.ts";
import type { Post } from "../../../shared/protocol/posts.ts";
import "../../styles/postsLine.css";
import { AuthorsWords } from "../../ui/AuthorsWords.tsx";
import type { AnswerKey } from "../../ui/askView.ts";
import { ago, seconds, secondsLeft } from "../../ui/numbers.ts";
import { Sheet } from "../../ui/Sheet.tsx";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { answerKey, askView } from "../shared/askViews.ts";
import { engineOptions } from "../shared/engineOptions.ts";
import type { Panel } from "../shared/model.ts";
import { PostsSheet } from "../shared/PostsSheet.tsx";
import { askAgain, ownAnswers } from "./chase.ts";
import { type PostNow, postsNow } from "./postsNow.ts";

/** One line of the four posts: who, what they owe, the time left. A touch opens what can be done about it. */
export function PostsLine({ panel }: { panel: Panel }) {
  const { postsLine: words } = useLaterWords();
  const [open, setOpen] = useState<Post | null>(null);
  const posts = postsNow(panel.state, panel.now);
  const opened = posts.find((p) => p.post === open);
  return (
    <section className="posts-line" aria-label={words.region}>
      {posts.map((p) => (
        <PostCell key={p.post} panel={panel} now={p} onOpen={() => setOpen(p.post)} />
      ))}
      {opened && (
        <Suspense fallback={null}>
          <Owed panel={panel} of={opened} onClose={() => setOpen(null)} />
        </Suspense>
      )}
    </section>
  );
}

function PostCell({ panel, now, onOpen }: { panel: Panel; now: PostNow; onOpen(): void }) {
  const { say, text } = panel.words;
  const { postsLine: words } = useLaterWords();
  const [first] = now.owes;
  return (
    <button
      type="button"
      className="post-now"
      data-blocks={now.blocks || undefined}
      data-owes={first !== undefined || undefined}
      onClick={onOpen}
    >
      <span className="post-now-name">
        <strong>{say.post(now.post)}</strong> <span>{now.holder ?? text.title.vacant}</span>
      </span>
      <span className="post-now-owes">{first ? <AuthorsWords text={say.ask(first)} /> : words.nothing}</span>
      {first && <Left of={first} left={now.left} panel={panel} />}
      {now.blocks && <span className="visually-hidden">{words.blocks}</span>}
    </button>
  );
}

/** The time left as a figure and a bar; without a limit, how long the ask has waited. */
function Left({ of, left, panel }: { of: Ask; left: number | null; panel: Panel }) {
  const { text } = panel.words;
  if (left === null)
    return <span className="post-now-left">{of.since === null ? "" : ago(panel.now - of.since, text)}</span>;
  const whole = of.since === null || of.dueAt === null ? null : of.dueAt - of.since;
  const part = whole === null || whole <= 0 ? 0 : Math.min(1, Math.max(0, left / whole));
  return (
    <span className="post-now-left" data-over={left <= 0 || undefined}>
      {left <= 0 ? text.ask.past(seconds(-left)) : text.times.left(secondsLeft(left))}
      <span
        className="post-now-bar"
        style={{ inlineSize: `${(part * 100).toFixed(0)}%` }}
        aria-hidden="true"
      />
    </span>
  );
}

/** Everything a post owes, with what the supervisor may record for it, and who may take the post. */
function Owed({ panel, of, onClose }: { panel: Panel; of: PostNow; onClose(): void }) {
  const { words } = panel;
  const { postsLine: says } = useLaterWords();
  const units = useUnits();
  return (
    <Sheet title={says.owes(words.say.post(of.post), of.holder)} onClose={onClose}>
      {of.owes.length === 0 && <p>{says.nothing}</p>}
      <ul className="owed">
        {of.owes.map((ask) => {
          const view = askView(panel.state, ask, panel.now, units, words);
          const keys = keysFor(panel, of.post, ask);
          const chases = chasesFor(panel, of.post, ask, says.again);
          return (
            <li key={ask.key}>
              <strong>
                <AuthorsWords text={view.sentence} />
              </strong>
              {view.asked && <span>{view.asked}</span>}
              {chases.length > 0 && <OwedKeys panel={panel} keys={chases} onClose={onClose} />}
              {keys.length > 0 && <p>{words.text.options.seen}</p>}
              <OwedKeys panel={panel} keys={keys} onClose={onClose} />
            </li>
          );
        })}
      </ul>
      <PostsSheet panel={panel} only={of.post} />
    </Sheet>
  );
}

interface OwedKeysProps {
  panel: Panel;
  keys: readonly AnswerKey[];
  onClose(): void;
}

function OwedKeys({ panel, keys, onClose }: OwedKeysProps) {
  return (
    <div className="option-keys">
      {keys.map((k) => (
        <button
          key={k.id}
          type="button"
          className="answer"
          data-tone="plain"
          disabled={!panel.fresh && !k.offline}
          onClick={() => {
            const action = fill(k.choice, {});
            if (action) panel.act(action);
            onClose();
          }}
        >
          {k.word}
        </button>
      ))}
    </div>
  );
}

/** Returns the keys that ask a post again, or that give the supervisor's own answer to what it owes. */
function chasesFor({ state, post, now, words }: Panel, of: Post, ask: Ask, again: string): AnswerKey[] {
  if (post === of) return [];
  const send = askAgain(state, post, ask);
  const own = ownAnswers(state, post, ask, now);
  return [
    ...(send ? [answerKey(state, offer("plain", send), again, `${ask.key}/again`)] : []),
    ...own.map((c, i) => answerKey(state, c, words.say.choice(c.word, ask.engine), `${ask.key}/own/${i}`)),
  ];
}

/**
 * Returns the signals of that post about the ask's engine that this post may record when it saw them given by hand, and
 * that need no entry.
 */
function keysFor(panel: Panel, post: Post, ask: Ask) {
  if (ask.engine === null || post === panel.post) return [];
  return engineOptions(panel, ask.engine)
    .flatMap((g) => g.keys)
    .filter(
      ({ choice }) => choice.need === null && choice.draft.type === "send" && choice.draft.seenFrom === post,
    );
}
