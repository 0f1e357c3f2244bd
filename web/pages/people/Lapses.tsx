import "../../styles/house.css";
import type { Lapse } from "../../../shared/house/lapses.ts";
import { dayWords } from "../../../shared/words/dates.ts";
import { useCurrencyWords } from "../../words/currency.ts";
import { useWords } from "../../words/words.ts";

/** A person's currencies that are over or end soon, each with its post. Nothing when all are good. */
export function Lapses({ lapses }: { lapses: readonly Lapse[] }) {
  const words = useCurrencyWords();
  const { say } = useWords();
  if (lapses.length === 0) return null;
  const line = ({ name, post, until, is, bars }: Lapse) => {
    const day = until === null ? null : dayWords(until - 1, say.language);
    const at = say.post(post).toLowerCase();
    const said = is === "ending" && day !== null ? words.ending(name, at, day) : words.over(name, at, day);
    return bars ? `${said}, ${words.bars}` : said;
  };
  return (
    <ul className="person-lapses">
      {lapses.map((l) => (
        <li key={`${l.post} ${l.kind}`} data-bars={l.bars || undefined}>
          {line(l)}
        </li>
      ))}
    </ul>
  );
}
