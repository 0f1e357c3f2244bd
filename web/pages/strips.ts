import { lifeAt } from "../../shared/engine/lifeAt.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { enginesOf } from "../../shared/stops/fireSeats.ts";
import { dayWords } from "../../shared/words/dates.ts";
import type { SessionRow } from "../net/api.ts";
import { shapeOf } from "../posts/shared/marks.ts";
import type { Need, StripView } from "../ui/Strip.tsx";
import type { Words } from "../words/catalogue.ts";

export interface Listed {
  row: SessionRow;
  /** The session's state with its engines; null for a session whose state is not fetched. */
  state: SessionState | null;
}

export function isRowOver(row: SessionRow): boolean {
  return row.stage === "closed" || row.stage === "abandoned";
}

/** Returns sessions as strips. Those that need a person come first, the most urgent at the top. */
export function stripsOf(
  listed: readonly Listed[],
  here: string | null,
  words: Words,
  now: number,
): StripView[] {
  return listed
    .map((l) => stripOf(l, here, words, now))
    .sort((a, b) => rank(a) - rank(b) || (a.needs?.since ?? 0) - (b.needs?.since ?? 0));
}

const RANK: readonly Need["is"][] = ["fire", "cut", "hold", "alert", "ready"];

function rank({ needs, over }: StripView): number {
  if (over) return RANK.length + 1;
  return needs ? RANK.indexOf(needs.is) : RANK.length;
}

function stripOf({ row, state }: Listed, here: string | null, words: Words, now: number): StripView {
  const { say } = words;
  return {
    id: row.id,
    aircraft: row.aircraft,
    typeName: row.typeName,
    place: row.place,
    stage: say.stage(row.stage) + (row.closedAt ? `, ${dayWords(row.closedAt, say.language)}` : ""),
    engines: (state?.engines ?? []).map(({ n, life: recorded }) => {
      const life = lifeAt(recorded, now);
      return { n, word: say.life(life).toLowerCase(), shape: shapeOf(life), danger: life.is === "fire" };
    }),
    needs: state ? needsOf(state, words) : null,
    over: state ? isOver(state) : isRowOver(row),
    here: row.id === here,
  };
}

/** Returns the most urgent need for a person with its time, or null. */
function needsOf(state: SessionState, { say, text: { ramp } }: Words): Need | null {
  const fire = state.fires[0];
  if (fire) {
    const engines = enginesOf(fire);
    const words = engines.length === 0 ? ramp.fire : ramp.fireAt(say.both(engines.map(String)));
    return { is: "fire", since: fire.by.at, words };
  }
  const cut = state.cuts[0];
  if (cut) {
    const words = cut.engine === null ? ramp.cutAll : ramp.cutAt(cut.engine);
    return { is: "cut", since: cut.by.at, words };
  }
  const hold = state.holds[0];
  if (hold) return { is: "hold", since: hold.by.at, words: ramp.holdBy(hold.by.name) };
  const alert = state.alerts.find((a) => a.active);
  if (alert) return { is: "alert", since: alert.at, words: say.alert(alert.kind, alert.engine) };
  for (const { n, life } of state.engines)
    if (life.is === "requested") return { is: "ready", since: life.since, words: ramp.ready(n) };
  return null;
}
