import { useWords } from "../../words/words.ts";

/** On every panel and page. */
export function Caution() {
  return <p className="caution">{useWords().say.caution}</p>;
}
