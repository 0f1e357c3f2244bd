import { memo, Suspense, useDeferredValue, useMemo, useState } from "react";
import { plain } from "../../../shared/engine/life.ts";
import { nextInOrder } from "../../../shared/engine/nextInOrder.ts";
import { figuresNow, figuresOfAircraft, figuresOfEngine } from "../../../shared/figures/all.ts";
import type { Facing } from "../../../shared/models/facing.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { nextToStop } from "../../../shared/stopping/nextToStop.ts";
import "../../styles/worked.css";
import { later } from "../../ui/later.tsx";
import { Opening } from "../../ui/Opening.tsx";
import { useUnits } from "../../ui/units.ts";
import { WorkedFigures } from "../../ui/WorkedFigures.tsx";
import type { Panel } from "./model.ts";
import { NoiseDay } from "./NoiseDay.tsx";
import { StandNow } from "./Stand.tsx";
import { workedRow } from "./workedRow.ts";

const InstrumentsNow = later(() => import("./InstrumentsNow.tsx").then((m) => m.InstrumentsNow));

const BUSY = ["requested", "clear", "cranking", "caught", "running"];

/**
 * Calculated figures for the current stage and the engine at hand, and for the aircraft when asked for. A chunk of
 * its own, because the first look at a panel does not need the models.
 */
export function WorkedOut({ panel: newest, facing }: { panel: Panel; facing: Facing }) {
  // Calculated behind the ask and the stops, so that a touch never waits for it.
  const panel = useDeferredValue(newest);
  const { state, post, now, words } = panel;
  const second = Math.floor(now / 1000) * 1000;
  return (
    <>
      {(state.instruments || state.station) && (
        <Suspense fallback={null}>
          <InstrumentsNow state={state} now={now} />
        </Suspense>
      )}
      <WorkedNow
        state={useLatched(state, second)}
        post={post}
        second={second}
        words={words}
        facing={facing}
      />
      {post && <NoiseDay panel={panel} />}
    </>
  );
}

/** Returns `value`, updated once a second: calculating figures for every event costs too much. */
function useLatched<T>(value: T, second: number): T {
  // biome-ignore lint/correctness/useExhaustiveDependencies: leaving out `value` is the purpose
  return useMemo(() => value, [second]);
}

interface Props {
  state: SessionState;
  post: Panel["post"];
  second: number;
  words: Panel["words"];
  facing: Facing;
}

const WorkedNow = memo(function WorkedNow({ state, post, second, words, facing }: Props) {
  const { text } = words;
  const [open, setOpen] = useState(false);
  const units = useUnits();
  const n = engineAtHand(state);
  const stage = useMemo(
    () => figuresNow(state, post, second).map((f) => workedRow(f, second, units, words)),
    [state, post, second, units, words],
  );
  // Geometry is costly to calculate and changes with events, not with time.
  const aircraft = useMemo(
    () => (open ? figuresOfAircraft(state, state.at).map((f) => workedRow(f, state.at, units, words)) : []),
    [state, open, units, words],
  );
  return (
    <>
      <WorkedFigures title={text.worked.stage} rows={stage} />
      {n !== null && <EngineWorked panel={{ state, now: second, words }} n={n} />}
      <StandNow state={state} engine={n} facing={facing} />
      <Opening
        open={open}
        words={open ? text.worked.fewer : text.worked.aircraft}
        look="worked-more"
        onOpen={setOpen}
      >
        <WorkedFigures
          title={text.worked.aircraft}
          rows={aircraft.filter((r) => !stage.some((s) => s.id === r.id))}
        />
      </Opening>
    </>
  );
});

/** Calculated figures of one engine. */
export function EngineWorked({ panel, n }: { panel: Pick<Panel, "state" | "now" | "words">; n: number }) {
  const { now, words } = panel;
  const units = useUnits();
  const second = Math.floor(now / 1000) * 1000;
  const state = useLatched(panel.state, second);
  const rows = useMemo(
    () => figuresOfEngine(state, n, second).map((f) => workedRow(f, second, units, words)),
    [state, n, second, units, words],
  );
  return <WorkedFigures title={words.text.worked.engine(n)} rows={rows} />;
}

/**
 * Returns the engine being started, else the next of the order, else the last of the order, which may still be
 * warming up. In a return it is the engine that is stopped next.
 */
function engineAtHand(state: SessionState): number | null {
  if (state.returning) return nextToStop(state)?.n ?? state.order.at(-1) ?? null;
  const busy = state.engines.find((e) => BUSY.includes(plain(e.life).is));
  return busy?.n ?? nextInOrder(state) ?? state.order.at(-1) ?? null;
}
