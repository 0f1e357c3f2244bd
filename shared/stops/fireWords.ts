import { isSameWord } from "../aircraft/locate.ts";
import type { FireWord } from "../protocol/standing.ts";
import type { SessionState } from "../session/state.ts";
import { setAlight } from "./alight.ts";
import { enginesOf } from "./fireSeats.ts";

/**
 * Returns the state with one more word of where a fire burns. No earlier word is lost: each engine named burns. The
 * first of two words that the fire is out no longer counts, because somebody sees it burn.
 */
export function addWord(state: SessionState, id: number, word: FireWord, heard: number): SessionState {
  const fire = state.fires.find((f) => f.id === id);
  if (!fire) return state;
  const { engine } = word;
  const known = (fire.said ?? []).some((w) => isSameWord(w, word));
  const said = known ? fire.said : [...(fire.said ?? []), { ...word, heard }];
  const next = { ...fire, outBy: null, ...(said === undefined ? {} : { said }) };
  const struck =
    engine === null || enginesOf(fire).includes(engine) ? state : setAlight(state, engine, id, word.by.at);
  return { ...struck, fires: struck.fires.map((f) => (f.id === id ? next : f)) };
}
