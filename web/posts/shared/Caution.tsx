import { useWords } from "../../words/words.ts";

/** The caution on every panel and page; `brief` where a panel needs the room. */
export function Caution({ brief = false }: { brief?: boolean }) {
  const { say, text } = useWords();
  return <p className="caution">{brief ? text.caution.brief : say.caution}</p>;
}
