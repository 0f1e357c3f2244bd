import { CAUTION } from "../../../shared/words/states.ts";

/** On every panel and page. */
export function Caution() {
  return <p className="caution">{CAUTION}</p>;
}
