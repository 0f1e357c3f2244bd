import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type { PhraseBook } from "../../shared/words/piece.ts";
import type { Say } from "../../shared/words/say.ts";
import type { Text } from "./en/text.ts";

/** All words a panel shows, in one language: a session's sentences, the panel's own, and the server's problems. */
export interface Words {
  say: Say;
  text: Text;
  problem: PhraseBook;
  /** Returns a session's state with what its type's author wrote in this language, where the type has it. */
  stateIn(state: SessionState): SessionState;
  /** Returns the author's texts that have no translation. */
  leftAsWritten(type: AircraftType): ReadonlySet<string>;
}
