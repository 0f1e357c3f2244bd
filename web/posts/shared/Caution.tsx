import { useWords } from "../../words/words.ts";

/** The caution on every panel and page; `short` where a panel needs the room. */
export function Caution({ short = false }: { short?: boolean }) {
  const { say, text } = useWords();
  return <p className="caution">{short ? text.caution.short : say.caution}</p>;
}
