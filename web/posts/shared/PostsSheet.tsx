import { useState } from "react";
import { POSTS, type Post } from "../../../shared/protocol/posts.ts";
import { say } from "../../../shared/words/en.ts";
import { ReasonEntry } from "../../ui/ReasonEntry.tsx";
import type { Panel } from "./model.ts";

type Doing = { is: "offer" | "vacate"; post: Post } | null;

const VACATE_REASONS = ["Silent, and not seen at the post", "Called away", "Device lost or broken"];

/** Who holds each post; taking, handing over and leaving them. */
export function PostsSheet({ panel }: { panel: Panel }) {
  const [doing, setDoing] = useState<Doing>(null);
  const done = () => setDoing(null);
  if (doing?.is === "vacate") {
    return (
      <ReasonEntry
        prompt={`Take ${panel.state.posts[doing.post]?.name} off ${say.post(doing.post).toLowerCase()}: why?`}
        usual={VACATE_REASONS}
        word="Take off the post"
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
      {POSTS.map((post) => (
        <PostRow key={post} panel={panel} post={post} onDo={setDoing} />
      ))}
    </ul>
  );
}

function PostRow({ panel, post, onDo }: { panel: Panel; post: Post; onDo(doing: Doing): void }) {
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
          {holder ? `${holder.name}${holder.briefed ? ", briefed" : ", not briefed"}` : "vacant"}
          {planned && planned.id !== holder?.id ? `, planned: ${planned.name}` : ""}
          {offeredTo ? `, offered to ${offeredTo}` : ""}
        </span>
      </div>
      <div className="option-keys">
        {!mine && holder === null && may && !holdsOther && (
          <button
            type="button"
            className="answer"
            data-tone="yes"
            disabled={!fresh}
            onClick={() => panel.act({ type: "claimPost", post })}
          >
            Take {say.post(post).toLowerCase()}
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
            Move it to this device
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
            Accept {say.post(post).toLowerCase()}
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
              Hand over
            </button>
            <button
              type="button"
              className="answer"
              data-tone="plain"
              disabled={!fresh}
              onClick={() => panel.act({ type: "leavePost", post })}
            >
              Leave the post
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
              Take off the post
            </button>
          )}
      </div>
    </li>
  );
}

function Offer({ panel, post, onDone }: { panel: Panel; post: Post; onDone(): void }) {
  const others = panel.people.filter((p) => p.id !== panel.me.id && p.mayHold.includes(post));
  return (
    <section className="options">
      <h3>Hand {say.post(post).toLowerCase()} over to</h3>
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
          Back
        </button>
      </div>
    </section>
  );
}
