import { needsPerson } from "../alerts/machine.ts";
import { type Ask, ask, type Choice } from "../asks/ask.ts";
import type { AskSay } from "../asks/askSay.ts";
import { LIGHTNING_ACTS, type LightningAct } from "../protocol/lightningActs.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import { lightningStop } from "./lightning.ts";

/** Returns what the type asks of a post while lightning stops work. */
export function lightningAct({ type }: SessionState, post: Post): LightningAct {
  return type.ramp?.lightning?.acts?.[post].act ?? LIGHTNING_ACTS[post][0];
}

/**
 * Returns the ask that stays with a post until the type's time is over, once it has seen the alert. It has no choice:
 * time alone ends it.
 */
export function lightningAsk(state: SessionState, post: Post, now: number): Ask[] {
  const stop = lightningStop(state, now);
  const unseen = state.alerts.some((a) => a.kind === "lightning" && needsPerson(a.posts[post] ?? "normal"));
  if (!stop || unseen) return [];
  const detail = { is: "lightning", act: lightningAct(state, post) } as const;
  return [ask({ key: "lightning", say: "lightning", weight: 2, dueAt: stop.resumeAt, detail })];
}

/** The asks for which somebody goes out to the aircraft, or sends somebody there. */
const OUTSIDE: ReadonlySet<AskSay> = new Set<AskSay>([
  "arcClear",
  "chocksIn",
  "connectPower",
  "countBlades",
  "disconnectPower",
  "guardInPlace",
  "guardPath",
  "guardStill",
  "handlePropeller",
  "removeChocks",
  "volts",
  "voltsCranked",
]);

/** The asks of unplugging, which stay where the type asks for it. */
const UNPLUGGING: ReadonlySet<AskSay> = new Set<AskSay>(["disconnectPower", "powerDisconnected"]);

/**
 * Returns the asks without what lightning forbids: nobody is sent out, and no leave to go there is offered. Of work on
 * the crew's leave, only the question stays whether everybody is clear.
 */
export function withoutLightning(asks: readonly Ask[], state: SessionState, post: Post, now: number): Ask[] {
  if (!lightningStop(state, now)) return [...asks];
  const unplugs = lightningAct(state, "groundPower") === "unplug";
  return asks.flatMap((asked): Ask[] => {
    const { say, choices } = asked;
    if (say === "standClear" || (unplugs && UNPLUGGING.has(say))) return [asked];
    const clear = choices.filter((c) => c.word === "clearOfAircraft");
    if (clear.length > 0) return [{ ...asked, say: "lightningLeave", weight: 2, choices: clear }];
    // A check of the cockpit is made inside.
    if (OUTSIDE.has(say) || (say === "check" && post !== "cockpit")) return [];
    return [{ ...asked, choices: choices.filter((c) => !givesLeave(c)) }];
  });
}

const givesLeave = ({ draft }: Choice): boolean => draft.type === "answer" && draft.answer === "authorise";
