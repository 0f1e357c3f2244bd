import { offeredTo } from "../../shared/posts/offeredTo.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { isOver } from "../../shared/session/state.ts";
import { planView } from "../posts/shared/marks.ts";
import { postsNow } from "../posts/supervisor/postsNow.ts";
import type { PlanView } from "../ui/plan/planView.ts";
import type { StripView } from "../ui/Strip.tsx";
import type { Words } from "../words/catalogue.ts";
import { laterWords } from "../words/later.ts";
import type { Listed } from "./strips.ts";

/** Data of a session's row on the ramp page, beside its strip. */
export interface RampRow {
  strip: StripView;
  /** Registration of the aircraft. */
  aircraft: string;
  /** Null while its state is not fetched. */
  plan: PlanView | null;
  /** The thing that the start waits for, with the post that owes it. */
  waitsFor: string | null;
  /** My post there, or one that is offered to me. */
  mine: string | null;
  offered: boolean;
}

/** Returns the row of a session for this person on this device. */
export function rampRow(
  strip: StripView,
  { row, state: read }: Listed,
  me: { id: string; device: string },
  words: Words,
  now: number,
): RampRow {
  const state = read && words.stateIn(read);
  if (!state)
    return { strip, aircraft: row.aircraft, plan: null, waitsFor: null, mine: null, offered: false };
  const { rampPage: says } = laterWords(words.say.language);
  const { say } = words;
  const blocker = isOver(state) ? undefined : postsNow(state, now).find((p) => p.blocks);
  const [owed] = blocker?.owes ?? [];
  const [offer] = offeredTo(state, me.id);
  const here = postHeld(state, me);
  const elsewhere = POSTS.find((p) => state.posts[p]?.id === me.id);
  return {
    strip,
    aircraft: row.aircraft,
    plan: planView(state, owed?.engine ?? null, now, words),
    waitsFor: blocker && owed ? says.waitsFor(say.post(blocker.post), say.ask(owed)) : null,
    mine: offer
      ? says.offered(say.post(offer).toLowerCase())
      : here
        ? says.mine(say.post(here).toLowerCase())
        : elsewhere
          ? says.elsewhere(say.post(elsewhere).toLowerCase())
          : null,
    offered: offer !== undefined,
  };
}
