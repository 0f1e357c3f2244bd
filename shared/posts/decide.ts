import type { Action } from "../protocol/commands.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

type PostAction = Extract<
  Action,
  { type: "claimPost" | "leavePost" | "offerPost" | "acceptPost" | "vacatePost" }
>;

/**
 * Decides how a post is taken, offered and left. A person holds one post at a time; a post is handed over, never
 * shared.
 */
export function decidePost(state: SessionState, action: PostAction, context: Context): Verdict {
  const { post } = action;
  const holder = state.posts[post];
  const me = context.person;
  switch (action.type) {
    case "claimPost": {
      if (holder?.id === me.id) {
        if (holder.device === me.device) return refuse("alreadyDone");
        return accept({ type: "postTaken", post, how: "moved", currentUntil: me.currentUntil ?? null });
      }
      if (holder) return refuse("postHeld", { found: holder.name });
      return (
        takeFault(state, post, context) ??
        accept({ type: "postTaken", post, how: "claimed", currentUntil: me.currentUntil ?? null })
      );
    }
    case "leavePost":
      if (context.post !== post) return refuse("wrongPost", { posts: [post] });
      return accept({ type: "postLeft", post });
    case "offerPost":
      if (context.post !== post) return refuse("wrongPost", { posts: [post] });
      if (action.to === me.id) return refuse("secondPersonNeeded", { found: me.name });
      return accept({ type: "postOffered", post, to: action.to });
    case "acceptPost":
      if (state.offers[post]?.to !== me.id) return refuse("notOffered", { found: post });
      return (
        takeFault(state, post, context) ??
        accept({ type: "postTaken", post, how: "accepted", currentUntil: me.currentUntil ?? null })
      );
    case "vacatePost": {
      if (!holder) return refuse("postVacant");
      const may = post === "supervisor" ? me.mayHold.includes("supervisor") : context.post === "supervisor";
      if (!may) return refuse("wrongPost", { posts: ["supervisor"] });
      return accept({ type: "postLeft", post, reason: action.reason });
    }
  }
}

function takeFault(state: SessionState, post: Post, context: Context): Verdict | null {
  if (!context.person.mayHold.includes(post)) return refuse("notQualified", { found: post });
  if (context.lapsed !== undefined) return refuse("currencyLapsed", { found: context.lapsed });
  const other = context.postElsewhere;
  // One supervisor may watch several aircraft; a person at any other post is at one.
  if (other && !(post === "supervisor" && other.post === "supervisor")) {
    return refuse("postElsewhere", { found: other.code });
  }
  const held = POSTS.find((p) => p !== post && state.posts[p]?.id === context.person.id);
  return held ? refuse("alreadyHoldsPost", { found: held }) : null;
}
