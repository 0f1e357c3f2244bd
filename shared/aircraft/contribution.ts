import { isTurning } from "../engine/life.ts";
import { ownLeavesOut } from "../leaves/out.ts";
import type { Contribution, FireWord, Item, LastReported, Mended } from "../protocol/standing.ts";
import type { Attribution } from "../session/attribution.ts";
import type { Fire, SessionState } from "../session/state.ts";
import { endedHere, isForeign, itemNo } from "./foreign.ts";

/** Returns everything that this session adds to its aircraft's record, as it stands in the session now. */
export function contributionOf(state: SessionState): Contribution {
  return {
    items: [...stops(state), ...atTheAircraft(state), ...written(state)],
    ended: endedHere(state),
    ...located(state),
    ...mended(state),
    ...closed(state),
    engines: state.engines.map(({ n, starter, blades, lastRanAt }) => ({ n, starter, blades, lastRanAt })),
    lastReported: lastReported(state),
  };
}

function stops(state: SessionState): Item[] {
  return [
    ...state.holds.flatMap(({ id, by, person, note }): Item[] =>
      isForeign(id) ? [] : [{ is: "hold", ref: id, by, person, note }],
    ),
    ...state.cuts.flatMap(({ id, by, person, engine }): Item[] =>
      isForeign(id) ? [] : [{ is: "cut", ref: id, by, person, engine }],
    ),
    ...state.fires.flatMap(({ id, by, engine, place, said }): Item[] =>
      isForeign(id)
        ? []
        : [{ is: "fire", ref: id, by, engine, place, ...(said === undefined ? {} : { said: words(said) }) }],
    ),
  ];
}

/** Returns the words about fires from elsewhere; the record adds those that it does not have yet. */
function located(state: SessionState): Pick<Contribution, "located"> {
  const fires = state.fires.flatMap(({ id, said }) =>
    isForeign(id) && said !== undefined ? [{ no: itemNo(id), said: words(said) }] : [],
  );
  return fires.length === 0 ? {} : { located: fires };
}

function words(said: NonNullable<Fire["said"]>): FireWord[] {
  return said.map(({ by, person, engine, place }) => ({ by, person, engine, place }));
}

function atTheAircraft(state: SessionState): Item[] {
  const { handling } = state;
  const hands: Item[] = handling
    ? [{ is: "hands", ref: handling.by.seq, by: handling.by, engine: handling.engine }]
    : [];
  const turning = state.engines
    .filter((e) => isTurning(e.life))
    .map(({ n }): Item => ({ is: "turning", ref: n, engine: n }));
  const leaves = ownLeavesOut(state).map(
    ({ service, by }): Item => ({ is: "leave", ref: by.seq, service, by: attribution(by) }),
  );
  const unseen = state.engines
    .filter((e) => e.unseen !== undefined)
    .map(({ n }): Item => ({ is: "unseen", ref: n, engine: n }));
  return [...hands, ...leaves, ...turning, ...unseen];
}

function written(state: SessionState): Item[] {
  const drills = state.drills.flatMap(({ id, drill, engine, at }): Item[] =>
    isForeign(id) ? [] : [{ is: "drill", ref: id, drill, engine, at }],
  );
  const defects = state.defects.flatMap(({ id, words, engine, barsStart, by, no, mended: done }): Item[] => {
    if (no !== undefined) return [];
    const own = { is: "defect", ref: by.seq, id, words, engine, barsStart, by } as const;
    return [done === undefined ? own : { ...own, mended: withoutSays(done) }];
  });
  return [...drills, ...defects];
}

/** Returns the defects from elsewhere that are mended; the record keeps the last mending of each. */
function mended(state: SessionState): Pick<Contribution, "mended"> {
  const told = state.defects.flatMap(({ no, mended: done }) =>
    no === undefined || done === undefined ? [] : [{ no, mended: withoutSays(done) }],
  );
  return told.length === 0 ? {} : { mended: told };
}

function withoutSays({ reason, by, person }: Mended): Mended {
  return { reason, by: attribution(by), person };
}

/** Returns how the session's defects were closed, so that the aircraft's record tells it. */
function closed({ defectsClosed }: SessionState): Pick<Contribution, "defectsClosed"> {
  if (defectsClosed === undefined) return {};
  return {
    defectsClosed: defectsClosed.map(({ id, reason, by }) => ({ id, reason, by: attribution(by) })),
  };
}

function lastReported({ chocks, brakes, groundPower }: SessionState): LastReported {
  return {
    chocks: chocks && { in: chocks.in, by: attribution(chocks) },
    brakes: brakes && { set: brakes.set, pressure: brakes.pressure, by: attribution(brakes) },
    groundPower:
      groundPower.is === "unknown"
        ? null
        : {
            is: groundPower.is,
            volts: groundPower.is === "on" ? groundPower.volts : null,
            by: groundPower.by,
          },
  };
}

function attribution({ at, seq, post, name, seenFrom }: Attribution): Attribution {
  return { at, seq, post, name, seenFrom };
}
