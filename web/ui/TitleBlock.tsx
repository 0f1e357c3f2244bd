import type { ReactNode } from "react";
import type { Post } from "../../shared/protocol/posts.ts";
import { useWords } from "../words/words.ts";

export interface PostCell {
  post: Post;
  name: string;
  holder: string | null;
  mine: boolean;
  /** State of the link to that post, in words. */
  link: string;
  is: "fresh" | "silent" | "vacant";
  /** The post is offered to this person, or otherwise needs their touch; null when not. */
  wants: string | null;
  /** A small mark beside the link, in words: this device's signal was not tested. Null for none. */
  mark: string | null;
}

interface Props {
  aircraft: string;
  /** True in a rehearsal of this aircraft: the block says so beside its name. */
  rehearsal: boolean;
  typeName: string;
  place: string;
  stage: string;
  /** Position in the sequence of stages, e.g. 6 of 8. */
  stageStep: string;
  posts: readonly PostCell[];
  clock: string;
  connection: string;
  connectionIs: "live" | "stale";
  /** The key for the light, at the end of the block. */
  children: ReactNode;
  onPosts(): void;
}

/** The drawing's title block: aircraft, stage, posts and server time. */
export function TitleBlock(p: Props) {
  const { title } = useWords().text;
  return (
    <header className="title-block">
      <div className="title-cell title-aircraft">
        {p.rehearsal && <span className="title-rehearsal">{title.rehearsal}</span>}
        <h1>{p.aircraft}</h1>
        <span className="title-more">
          {p.typeName}, {p.place}
        </span>
      </div>
      <div className="title-cell title-stage">
        <span className="title-label">{title.stage(p.stageStep)}</span>
        <strong>{p.stage}</strong>
      </div>
      <button type="button" className="title-posts" onClick={p.onPosts}>
        {p.posts.map((c) => (
          <span key={c.post} className="title-cell title-post" data-is={c.is} data-mine={c.mine || undefined}>
            <span className="title-label">{c.name}</span>
            <strong>{c.holder ?? title.vacant}</strong>
            <span className="title-more">
              {c.wants ?? c.link}
              {c.mark && <UntestedMark words={c.mark} />}
            </span>
          </span>
        ))}
        {/* Last in the accessible name: people who see the key use its visible words, so the name starts with them. */}
        <span className="visually-hidden">{title.posts}</span>
      </button>
      <div className="title-cell title-clock" data-is={p.connectionIs}>
        <span className="title-label">{title.clock}</span>
        <strong>{p.clock}</strong>
        <span className="title-more">{p.connection}</span>
      </div>
      {p.children}
    </header>
  );
}

/** A bell with a question mark: nobody has said yet that this device's signal is noticed. */
function UntestedMark({ words }: { words: string }) {
  return (
    <>
      {" "}
      <svg viewBox="0 0 24 24" className="title-mark" aria-hidden="true">
        <path d="M3 18h12M5 18V10a4.5 4.5 0 0 1 9 0v8M8 21h3" className="line" />
        <path d="M17 5a2.5 2.5 0 1 1 3 2.6V10M20 13v1" className="line" />
      </svg>
      <span className="visually-hidden">{words}</span>
    </>
  );
}
