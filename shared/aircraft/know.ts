import { nothingDone } from "../drills/steps.ts";
import { withEngine } from "../engine/evolve.ts";
import { type Engine, plain } from "../engine/life.ts";
import type { EngineHistory, FireWord, Item, Standing, StandingItem } from "../protocol/standing.ts";
import type { Cut, Defect, DrillRun, Fire, Hold, SessionState } from "../session/state.ts";
import { closeSignal } from "../signals/close.ts";
import { notSeenStill } from "../stopping/unseen.ts";
import { afterFire, setAlight } from "../stops/alight.ts";
import { addWord } from "../stops/fireWords.ts";
import { latched } from "../stops/latch.ts";
import { endedHere, foreignId, isForeign } from "./foreign.ts";
import type { KnownStanding } from "./known.ts";
import { isSameWord, wordsOf } from "./locate.ts";
import { laterMended } from "./mended.ts";
import { newestCount } from "./newestCount.ts";
import { isOfPropeller } from "./record.ts";

/**
 * Returns the session's state after it was told of the aircraft's record. A stop that is new here opens a new epoch,
 * like one of the session's own. A stop that was ended elsewhere ends here too, and one that was ended here does not
 * come back.
 * @param seq number of the event that tells it
 */
export function know(before: SessionState, told: Standing, seq: number): SessionState {
  const over = endedHere(before);
  const items = told.items.filter((i) => !over.includes(i.no));
  const state = withoutEnded(before, told.ended, items);
  const stops = withWordsOf(withStops(state, items), wordsTold(told, items), seq);
  const known = { ...stops, standing: standingOf(told, items, over) };
  return told.engines.reduce(
    (next, history) => withEngine(next, history.n, (e) => withHistory(e, history)),
    withDrillsAndDefects(known, items),
  );
}

/** A newer version of the type may lack the drill. The drill still stays open, with empty cards. */
const NO_CARDS = { cockpit: [], fireGuard: [], groundPower: [], supervisor: [] };

/** Returns whether the record holds anything that this session does not know yet. */
export function isNews(state: SessionState, told: Standing): boolean {
  if (told.record <= (state.standing?.record ?? 0)) return false;
  const over = endedHere(state);
  const items = told.items.filter((i) => !over.includes(i.no));
  if (!same(items.map(withoutWords), (state.standing?.told ?? []).map(withoutWords))) return true;
  if (wordsTold(told, items).some(({ id, word }) => isNewWord(state, id, word))) return true;
  if (sizeOf(withoutEnded(state, told.ended, items)) !== sizeOf(state)) return true;
  return told.engines.some((history) => {
    const engine = state.engines[history.n - 1];
    return engine !== undefined && !same(historyOf(withHistory(engine, history)), historyOf(engine));
  });
}

/** Returns every word of where a fire burns that the session is told, with the fire's id in the session. */
function wordsTold(told: Standing, items: readonly StandingItem[]): { id: number; word: FireWord }[] {
  const foreign = items.flatMap(({ no, item }) => wordsOf(item).map((word) => ({ id: foreignId(no), word })));
  const own = (told.located ?? []).flatMap(({ ref, said }) => said.map((word) => ({ id: ref, word })));
  return [...foreign, ...own];
}

/** A word is compared with what the session knows of its fire, so that its own word is no news to it. */
function withoutWords({ no, session, item }: StandingItem): StandingItem {
  if (item.is !== "fire") return { no, session, item };
  const { said: _words, ...fire } = item;
  return { no, session, item: fire };
}

function isNewWord(state: SessionState, id: number, word: FireWord): boolean {
  const fire = state.fires.find((f) => f.id === id);
  return fire !== undefined && !(fire.said ?? []).some((known) => isSameWord(known, word));
}

/** Adds the words that the session does not know yet. */
function withWordsOf(
  state: SessionState,
  told: readonly { id: number; word: FireWord }[],
  seq: number,
): SessionState {
  return told.reduce(
    (next, { id, word }) => (isNewWord(next, id, word) ? addWord(next, id, word, seq) : next),
    state,
  );
}

/** Returns how many items there are that the record can end in a session. */
function sizeOf(state: SessionState): number {
  const { holds, cuts, fires, drills, defects, handling } = state;
  const lists = holds.length + cuts.length + fires.length + drills.length + defects.length;
  return lists + notSeenStill(state).length + (handling ? 1 : 0);
}

const historyOf = ({ starter, lastRanAt, blades }: Engine) => ({ starter, lastRanAt, blades });

function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

function standingOf(told: Standing, items: readonly StandingItem[], over: number[]): KnownStanding {
  const { record, lastReported } = told;
  return {
    record,
    told: [...items],
    endedHere: over,
    hands: items.flatMap(({ no, item }) =>
      item.is === "hands" ? [{ no, engine: item.engine, by: item.by }] : [],
    ),
    leaves: items.flatMap(({ no, item }) =>
      item.is === "leave" ? [{ no, service: item.service, by: item.by }] : [],
    ),
    turning: items.flatMap(({ no, item }) => (isOfPropeller(item) ? [{ no, engine: item.engine }] : [])),
    lastReported,
  };
}

/**
 * Returns the state without the items that another session or a supervisor has ended, whether they began here or
 * elsewhere.
 */
function withoutEnded(
  state: SessionState,
  own: readonly Item[],
  items: readonly StandingItem[],
): SessionState {
  const standing = new Set(items.map((i) => foreignId(i.no)));
  const ended = new Set(own.flatMap((i) => (isOfPropeller(i) ? [] : [i.ref])));
  const goes = (id: number) => (isForeign(id) ? !standing.has(id) : ended.has(id));
  const out = state.fires.filter((f) => goes(f.id));
  const next: SessionState = {
    ...state,
    holds: state.holds.filter((h) => !goes(h.id)),
    cuts: state.cuts.filter((c) => !goes(c.id)),
    fires: state.fires.filter((f) => !goes(f.id)),
    drills: state.drills.filter((d) => !goes(d.id)),
    defects: state.defects.filter((d) => !(d.no === undefined ? goes(d.by.seq) : goes(foreignId(d.no)))),
    ...(state.handling && goes(state.handling.by.seq) ? { handling: null } : {}),
  };
  const seen = own.reduce(seenStill, next);
  const closed = [...ended].reduce((s, id) => closeSignal(s, id, "done"), seen);
  return out.reduce((s, fire) => afterFire(s, fire, state.at), closed);
}

/** Returns the state after another session saw the propeller of a stopped engine still. */
function seenStill(state: SessionState, item: Item): SessionState {
  if (item.is !== "unseen") return state;
  return withEngine(state, item.engine, ({ unseen: _seen, ...e }) => e);
}

/** Returns the state with new stops of the record open, like the session's own. */
function withStops(state: SessionState, items: readonly StandingItem[]): SessionState {
  const here = new Set([...state.holds, ...state.cuts, ...state.fires].map((s) => s.id));
  const fresh = items.filter((i) => isStop(i.item) && !here.has(foreignId(i.no)));
  if (fresh.length === 0) return state;
  return fresh.reduce(withStop, latched(state));
}

function isStop(item: Item): boolean {
  return item.is === "hold" || item.is === "cut" || item.is === "fire";
}

function withStop(state: SessionState, { no, item }: StandingItem): SessionState {
  const id = foreignId(no);
  switch (item.is) {
    case "hold": {
      const { by, person, note } = item;
      const hold: Hold = { id, by, person, note };
      return { ...state, holds: [...state.holds, hold] };
    }
    case "cut": {
      const { by, person, engine } = item;
      const cut: Cut = { id, by, person, engine, doneAt: null };
      return { ...state, cuts: [...state.cuts, cut] };
    }
    case "fire": {
      const { by, engine, place } = item;
      const fire: Fire = { id, by, engine, place, outBy: null };
      const struck = engine === null ? state : setAlight(state, engine, id, state.at);
      return { ...struck, fires: [...struck.fires, fire] };
    }
    case "hands":
    case "leave":
    case "turning":
    case "unseen":
    case "drill":
    case "defect":
      return state;
  }
}

function withDrillsAndDefects(state: SessionState, items: readonly StandingItem[]): SessionState {
  const drills = items.flatMap(({ no, item }): DrillRun[] => {
    if (item.is !== "drill" || state.drills.some((d) => d.id === foreignId(no))) return [];
    const { drill, engine, at } = item;
    const cards = state.type.drills.find((d) => d.id === drill)?.cards ?? NO_CARDS;
    // A drill taken over from another session begins again at its first step.
    return [{ id: foreignId(no), drill, engine, ref: null, at, steps: nothingDone(cards) }];
  });
  const defects = items.flatMap(({ no, item }): Defect[] => {
    if (item.is !== "defect" || state.defects.some((d) => d.no === no || d.id === item.id)) return [];
    const { id, words, engine, barsStart, by, deferred } = item;
    const begun = { id, words, engine, barsStart, by, no, ...(deferred === undefined ? {} : { deferred }) };
    return [withLife(begun, items)];
  });
  return {
    ...state,
    drills: [...state.drills, ...drills],
    defects: [...state.defects.map((d) => withLife(d, items)), ...defects],
  };
}

/** Returns a known defect with the starts used up and the mending that the record tells of it. */
function withLife(defect: Defect, items: readonly StandingItem[]): Defect {
  const item = items.find(({ no }) => no === defect.no)?.item;
  if (item?.is !== "defect") return defect;
  const mended = laterMended(defect.mended, item.mended);
  return {
    ...defect,
    ...(item.startedSince === undefined ? {} : { startedSince: item.startedSince }),
    ...(mended === undefined ? {} : { mended }),
  };
}

/**
 * Returns the engine with its history, if this session has not yet cranked it: starter ladder, blades, and last run.
 */
function withHistory(engine: Engine, history: EngineHistory): Engine {
  if (engine.attempts > 0 || plain(engine.life).is !== "waiting") return engine;
  const { starter, lastRanAt } = history;
  const blades = newestCount(engine.blades, history.blades);
  return { ...engine, starter: starter.map(asUse), lastRanAt, blades };
}

function asUse({ on, off, onMax, lowest, expected }: EngineHistory["starter"][number]) {
  return {
    on,
    off,
    onMax,
    ...(lowest === undefined ? {} : { lowest }),
    ...(expected === undefined ? {} : { expected }),
  };
}
