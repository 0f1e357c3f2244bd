import type { PhraseBook } from "../../shared/words/phraseBook.ts";
import type { Say } from "../../shared/words/say.ts";
import type { Text } from "./en/text.ts";

/** All words a panel shows, in one language: a session's sentences, the panel's own, and the server's problems. */
export interface Words {
  say: Say;
  text: Text;
  problem: PhraseBook;
}
