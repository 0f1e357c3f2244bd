import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { hydrometerOf } from "../../shared/checks/gravity.ts";
import { chance } from "../../shared/partners/chance.ts";
import { playPost } from "../../shared/partners/play.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Quantity } from "../../shared/protocol/quantity.ts";
import { itemGauge } from "../../shared/runUp/verdict.ts";
import type { SessionState } from "../../shared/session/state.ts";

/** The scale of a battery hydrometer. */
const HYDROMETER = { from: 1.05, to: 1.35 };

/** Returns a figure in or out of range, on the instrument's scale. */
function anyFigure(
  unit: Quantity["unit"],
  roll: number,
  scale?: { from: number; to: number } | undefined,
): Quantity {
  if (scale) {
    const value = scale.from + (scale.to - scale.from) * roll;
    return { value: scale.to < 2 ? Number(value.toFixed(3)) : Math.round(value), unit };
  }
  const high = { V: 40, psi: 150, inHg: 9, degC: 140, degF: 280, rpm: 2000, count: 12 } as Partial<
    Record<Quantity["unit"], number>
  >;
  return { value: Math.round((high[unit] ?? 1) * roll), unit };
}

/**
 * Returns an action that one of the crew could take now: mostly the next step, often any answer to any ask, sometimes
 * trouble.
 */
export function anything(
  state: SessionState,
  seed: number,
  turn: number,
  now: number,
): { post: Post; action: Action; asked: boolean } | null {
  const roll = (what: string) => chance(seed, turn, what);
  const pick = <T>(list: readonly T[], what: string) => list[Math.floor(roll(what) * list.length)] as T;
  const post = pick(POSTS, "post");
  if (roll("trouble") < 0.015) {
    const engine = pick(state.engines, "engine").n;
    const kind = pick(["hold", "cut", "cutAll", "fire", "turning"] as const, "kind");
    const on = kind === "cutAll" ? {} : { engine };
    return { post, action: { type: "send", kind, channel: "panel", ...on }, asked: false };
  }
  if (roll("leave") < 0.005) return { post, action: { type: "leavePost", post }, asked: false };
  if (roll("stop") < 0.005) {
    const engine = pick(state.engines, "engine").n;
    return {
      post: "cockpit",
      action: { type: "send", kind: "shutDown", channel: "panel", engine },
      asked: false,
    };
  }
  if (state.posts[post] === null) return { post, action: { type: "claimPost", post }, asked: false };
  if (roll("steady") < 0.8) {
    const move = playPost(state, post, now, { seed, pace: 1, cart: "Knocker" });
    return move && move.notBefore <= now ? { post, action: move.action, asked: true } : null;
  }
  const options = askedOf(state, post, now).flatMap((ask) =>
    ask.choices.flatMap((chosen) => {
      const { draft } = chosen;
      const gauge =
        draft.type === "recordRunUp"
          ? itemGauge(state.type, draft.item)
          : draft.type === "reading"
            ? state.type.gauges.find((g) => g.id === draft.gauge)
            : undefined;
      const hydrometer = draft.type === "recordCheck" && hydrometerOf(state, draft.check) !== null;
      const scale = hydrometer ? HYDROMETER : gauge?.scale;
      const figure = chosen.need?.is === "figure" ? anyFigure(chosen.need.unit, roll("figure"), scale) : null;
      const action = fill(chosen, {
        ...(ask.engine === null ? {} : { engine: ask.engine }),
        ...(figure ? { figure } : {}),
        reason: "chaos",
        blades: { blades: Math.floor(roll("blades") * 20), resistance: roll("resistance") < 0.1 },
        weather: { windKt: Math.floor(roll("wind") * 40), gustKt: Math.floor(roll("gust") * 50) },
      });
      return action ? [action] : [];
    }),
  );
  return options.length === 0 ? null : { post, action: pick(options, "option"), asked: true };
}
