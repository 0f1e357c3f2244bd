import { useState } from "react";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import { isOver } from "../../../shared/session/state.ts";
import { ReasonEntry } from "../../ui/ReasonEntry.tsx";
import { useLaterWords } from "../../words/later.ts";
import { useWords } from "../../words/words.ts";
import type { Panel } from "./model.ts";

type Doing = { is: "offer" | "vacate"; post: Post } | null;

/** Lists the holder of each post, or of one, with keys to take, hand over and leave posts. */
export function PostsSheet({ panel, only }: { panel: Panel; only?: Post }) {
  const { say } = useWords();
  const words = useLaterWords().postsSheet;
  const [doing, setDoing] = useState<Doing>(null);
  const done = () => setDoing(null);
  if (doing?.is === "vacate") {
    return (
      <ReasonEntry
        prompt={words.vacateWhy(
          panel.state.posts[doing.post]?.name ?? "",
          say.post(doing.post).toLowerCase(),
        )}
        usual={Object.values(words.reasons)}
        word={words.vacate}
        disabled={!panel.fresh}
        onEnter={(reason) => {
          panel.act({ type: "vacatePost", post: doing.post, reason });
          done();
        }}
        onBack={done}
      />
    );
  }
  if (doing?.is === "offer") return <Offer panel={panel} post={doing.post} onDone={done} />;
  return (
    <ul className="posts-list">
      {POSTS.filter((post) => only === undefined || post === only).map((post) => (
        <PostRow key={post} panel={panel} post={post} onDo={setDoing} />
      ))}
    </ul>
  );
}

function PostRow({ panel, post, onDo }: { panel: Panel; post: Post; onDo(doing: Doing): void }) {
  const { say } = useWords();
  const words = useLaterWords().postsSheet;
  const { state, me, fresh } = panel;
  const holder = state.posts[post];
  const offer = state.offers[post];
  const mine = panel.post === post;
  const may = me.mayHold.includes(post);
  const holdsOther = panel.post !== null && !mine;
  const offeredTo = offer && panel.people.find((p) => p.id === offer.to)?.name;
  const planned = state.crew[post];
  return (
    <li>
      <div>
        <strong>{say.post(post)}</strong>
        <span>
          {[
            holder ? (holder.briefed ? words.briefed : words.notBriefed)(holder.name) : words.vacant,
            ...(planned && planned.id !== holder?.id ? [words.planned(planned.name)] : []),
            ...(offeredTo ? [words.offeredTo(offeredTo)] : []),
          ].join(", ")}
        </span>
      </div>
      {!isOver(state) && (
        <div className="option-keys">
          {!mine && holder === null && may && !holdsOther && (
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={!fresh}
              onClick={() => panel.act({ type: "claimPost", post })}
            >
              {words.takeThis(say.post(post).toLowerCase())}
            </button>
          )}
          {!mine && holder?.id === me.id && (
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={!fresh}
              onClick={() => panel.act({ type: "claimPost", post })}
            >
              {words.move}
            </button>
          )}
          {offer?.to === me.id && (
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={!fresh}
              onClick={() => panel.act({ type: "acceptPost", post })}
            >
              {words.accept(say.post(post).toLowerCase())}
            </button>
          )}
          {mine && (
            <>
              <button
                type="button"
                className="answer"
                data-tone="plain"
                disabled={!fresh}
                onClick={() => onDo({ is: "offer", post })}
              >
                {words.handOver}
              </button>
              <button
                type="button"
                className="answer"
                data-tone="plain"
                disabled={!fresh}
                onClick={() => panel.act({ type: "leavePost", post })}
              >
                {words.leave}
              </button>
            </>
          )}
          {!mine &&
            holder &&
            (panel.post === "supervisor" || (post === "supervisor" && me.mayHold.includes("supervisor"))) && (
              <button
                type="button"
                className="answer"
                data-tone="no"
                disabled={!fresh}
                onClick={() => onDo({ is: "vacate", post })}
              >
                {words.vacate}
              </button>
            )}
        </div>
      )}
    </li>
  );
}

function Offer({ panel, post, onDone }: { panel: Panel; post: Post; onDone(): void }) {
  const { say, text } = useWords();
  const words = useLaterWords().postsSheet;
  const others = panel.people.filter((p) => p.id !== panel.me.id && p.mayHold.includes(post));
  return (
    <section className="options">
      <h3>{words.handOverTo(say.post(post).toLowerCase())}</h3>
      <div className="option-keys">
        {others.map((p) => (
          <button
            key={p.id}
            type="button"
            className="answer"
            data-tone="plain"
            disabled={!panel.fresh}
            onClick={() => {
              panel.act({ type: "offerPost", post, to: p.id });
              onDone();
            }}
          >
            {p.name}
          </button>
        ))}
        <button type="button" className="answer" data-tone="plain" onClick={onDone}>
          {text.entry.back}
        </button>
      </div>
    </section>
  );
}
