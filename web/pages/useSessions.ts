import { useEffect, useState } from "react";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import type { SessionRow } from "../net/api.ts";
import { api } from "../net/app.ts";
import type { StripView } from "../ui/Strip.tsx";
import type { Words } from "../words/words.ts";

export interface Listed {
  row: SessionRow;
  /** The engines' states, for live sessions. */
  state: SessionState | null;
}

const RENEW_MS = 4_000;
const LIVE_SHOWN = 12;

/** Every session, renewed when the server says the list changed and every few seconds besides. */
export function useSessions(
  ramp: number,
  { text }: Words,
): { listed: Listed[] | null; trouble: string | null } {
  const [listed, setListed] = useState<Listed[] | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `ramp` rises when the list must be asked for again
  useEffect(() => {
    let wanted = true;
    const renew = async () => {
      try {
        const rows = await api.sessions();
        const live = rows.filter((r) => !over(r)).slice(0, LIVE_SHOWN);
        const states = new Map<string, SessionState>();
        await Promise.all(live.map(async (r) => states.set(r.id, (await api.session(r.id)).state)));
        if (!wanted) return;
        setListed(rows.map((row) => ({ row, state: states.get(row.id) ?? null })));
        setTrouble(null);
      } catch (error) {
        if (wanted) setTrouble(error instanceof Error ? error.message : text.net.noList);
      }
    };
    void renew();
    const timer = setInterval(renew, RENEW_MS);
    return () => {
      wanted = false;
      clearInterval(timer);
    };
  }, [ramp]);
  return { listed, trouble };
}

function over(row: SessionRow): boolean {
  return row.stage === "closed" || row.stage === "abandoned";
}

export function stripOf({ row, state }: Listed, here: string | null, words: Words): StripView {
  const { say } = words;
  return {
    id: row.id,
    aircraft: row.aircraft,
    typeName: row.typeName,
    place: row.place,
    stage: say.stage(row.stage),
    engines: (state?.engines ?? []).map((e) => ({
      n: e.n,
      word: say.life(e.life).toLowerCase(),
      danger: e.life.is === "fire",
    })),
    needs: state ? needsOf(state, words) : null,
    over: state ? isOver(state) : over(row),
    here: row.id === here,
  };
}

/** The most pressing thing that needs a person. */
function needsOf(state: SessionState, { say, text: { ramp } }: Words): string | null {
  const fire = state.fires[0];
  if (fire) return fire.engine === null ? ramp.fire : ramp.fireAt(fire.engine);
  const cut = state.cuts[0];
  if (cut) return cut.engine === null ? ramp.cutAll : ramp.cutAt(cut.engine);
  const hold = state.holds[0];
  if (hold) return ramp.holdBy(hold.by.name);
  const alert = state.alerts.find((a) => a.active);
  if (alert) return say.alert(alert.kind, alert.engine);
  const asked = state.engines.find((e) => e.life.is === "requested");
  return asked ? ramp.ready(asked.n) : null;
}
