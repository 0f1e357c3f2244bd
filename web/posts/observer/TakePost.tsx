import { useEffect } from "react";
import { isOver } from "../../../shared/session/state.ts";
import type { Panel } from "../shared/model.ts";
import { takeWish } from "./wished.ts";

/** The key that leads to the posts, for a person who may hold one. A session that is over has no post to take. */
export function TakePost({ panel, onPosts }: { panel: Panel; onPosts(): void }) {
  const { state, me, words, fresh, act } = panel;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once the panel may act
  useEffect(() => {
    const post = fresh ? takeWish(state.id) : null;
    if (post) act({ type: state.offers[post]?.to === me.id ? "acceptPost" : "claimPost", post });
  }, [fresh]);
  if (me.mayHold.length === 0 || isOver(state)) return null;
  const offered = Object.values(state.offers).some((o) => o?.to === me.id);
  return (
    <button type="button" className="answer" data-tone="yes" onClick={onPosts}>
      {offered ? words.text.posts.offered : words.text.posts.take}
    </button>
  );
}
