import { useMemo } from "react";
import { isTurning } from "../../../shared/engine/life.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { useNoise } from "../../net/useNoise.ts";
import { useUnits } from "../../ui/units.ts";
import { WorkedFigures } from "../../ui/WorkedFigures.tsx";
import type { Panel } from "./model.ts";
import { workedRow } from "./workedRow.ts";

/** The day's noise doses: the person's own, and at the supervisor's post everybody's. */
export function NoiseDay({ panel }: { panel: Panel }) {
  const { state, now, words } = panel;
  const units = useUnits();
  const day = useNoise(state.id, stands(state));
  const second = Math.floor(now / 1000) * 1000;
  const rows = useMemo(
    () => day?.figures.map((f) => workedRow(f, second, units, words)),
    [day, second, units, words],
  );
  if (!rows) return null;
  return <WorkedFigures title={words.text.worked.noise} rows={rows} />;
}

/** Returns a string that changes when the holder of a post or the set of turning engines changes. */
function stands(state: SessionState): string {
  const holders = POSTS.map((p) => state.posts[p]?.id ?? "");
  return [...holders, ...state.engines.filter((e) => isTurning(e.life)).map((e) => e.n)].join(" ");
}
