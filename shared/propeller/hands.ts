import { authorityFault } from "../leaves/fault.ts";
import { leaveAnswers, service } from "../leaves/service.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { accept, refuse } from "../session/verdict.ts";
import { signal } from "../signals/kinds.ts";

/** Hands on one engine's propeller. The cockpit's leave states that ignition is off. */
export const handlePropeller = service("handlePropeller", (state) => state.handling !== null, {
  from: ["fireGuard", "groundPower", "cockpit"],
  stages: ["secure", "powerUp", "groundPower", "starting", "stowing"],
  engine: "required",
  decide: (state, send, { now }) =>
    authorityFault(state, "handlePropeller", now, send.engine ?? null) ?? accept({ ...send, type: "sent" }),
  menu: {
    own: ["fireGuard", "groundPower"],
    seenBy: [],
    when: ["waiting", "shutDown", "cooling"],
    tone: "plain",
  },
  answer: {
    ...leaveAnswers("handlePropeller"),
    due: (from) => (from === "cockpit" ? [] : ["cockpit"]),
  },
});

/** Hands are off the propeller: reported by the post whose hands they were, or by the guard who sees it. */
export const propellerFree = signal({
  from: ["fireGuard", "groundPower"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  decide(state, send, { post }) {
    if (!handsOn(state, send.engine)) return refuse("nothingOpen");
    const hands = state.handling?.engine === send.engine ? state.handling?.hands : undefined;
    const giver = send.seenFrom ?? post;
    return hands === undefined || giver === hands || giver === "fireGuard"
      ? accept({ ...send, type: "sent" })
      : refuse("wrongPost", { posts: [hands] });
  },
  evolve(state, _event, { engine }) {
    const { handling, standing } = state;
    return {
      ...state,
      handling: handling?.engine === engine ? null : handling,
      ...(standing
        ? { standing: { ...standing, hands: standing.hands.filter((h) => h.engine !== engine) } }
        : {}),
    };
  },
});

/** Returns whether hands are on this engine's propeller, from this session or left there by an earlier one. */
function handsOn({ handling, standing }: SessionState, engine: number | undefined): boolean {
  return handling?.engine === engine || (standing?.hands ?? []).some((h) => h.engine === engine);
}
