import { useEffect, useRef, useState } from "react";
import type { SessionState } from "../../shared/session/state.ts";
import { api } from "../net/app.ts";
import type { Words } from "../words/catalogue.ts";
import { isRowOver, type Listed } from "./strips.ts";

const RENEW_MS = 4_000;
const LIVE_SHOWN = 12;

/**
 * Returns every session, fetched when the server announces a change and every 4 s; `renewedAt` is in panel time,
 * milliseconds. States are fetched only for the twelve live sessions with the most alerts and stops, and again only
 * after a new event there.
 */
export function useSessions(
  ramp: number,
  { text }: Words,
): { listed: Listed[] | null; trouble: Error | null; renewedAt: number | null } {
  const [listed, setListed] = useState<Listed[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [renewedAt, setRenewedAt] = useState<number | null>(null);
  const known = useRef(new Map<string, { head: number; state: SessionState }>());
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of `ramp` triggers a new request
  useEffect(() => {
    let wanted = true;
    const renew = async () => {
      try {
        const rows = await api.sessions();
        const live = rows
          .filter((r) => !isRowOver(r))
          .sort((a, b) => b.needs - a.needs)
          .slice(0, LIVE_SHOWN);
        await Promise.all(
          live.map(async ({ id, headSeq }) => {
            if ((known.current.get(id)?.head ?? -1) < headSeq) known.current.set(id, await api.session(id));
          }),
        );
        if (!wanted) return;
        const shown = new Set(live.map((r) => r.id));
        setListed(
          rows.map((row) => ({
            row,
            state: shown.has(row.id) ? (known.current.get(row.id)?.state ?? null) : null,
          })),
        );
        setTrouble(null);
        setRenewedAt(Date.now());
      } catch (error) {
        if (wanted) setTrouble(error instanceof Error ? error : new Error(text.net.noList));
      }
    };
    void renew();
    const timer = setInterval(renew, RENEW_MS);
    return () => {
      wanted = false;
      clearInterval(timer);
    };
  }, [ramp]);
  return { listed, trouble, renewedAt };
}
