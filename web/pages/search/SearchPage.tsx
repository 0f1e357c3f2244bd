import "../../styles/search.css";
import { useEffect, useState } from "react";
import { askedIn, type Found, search } from "../../net/search.ts";
import { useSearchWords } from "../../words/search.ts";
import { useWords } from "../../words/words.ts";
import { SidePage } from "../SidePage.tsx";
import { FoundRow } from "./FoundRow.tsx";
import { SearchForm } from "./SearchForm.tsx";

/** Time after which the page looks again while the server still reads. Milliseconds. */
const AGAIN_MS = 2_000;

/** Searches everything written. The address holds the question, so that it can be kept and sent. */
export function SearchPage({ asked: address }: { asked: string }) {
  const words = useSearchWords();
  const { ramp } = useWords().text;
  const asked = askedIn(address);
  const [pages, setPages] = useState<Found[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [looks, setLooks] = useState(0);
  const last = pages?.at(-1);
  const unread = last?.unread ?? 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: `looks` asks again
  useEffect(() => {
    let wanted = true;
    search(askedIn(address), null).then(
      (found) => wanted && setPages([found]),
      (error: Error) => wanted && setTrouble(error),
    );
    return () => {
      wanted = false;
    };
  }, [address, looks]);
  useEffect(() => {
    if (unread === 0) return;
    const timer = setTimeout(() => setLooks((n) => n + 1), AGAIN_MS);
    return () => clearTimeout(timer);
  }, [unread]);
  const more = (before: string) =>
    search(asked, before).then((found) => setPages((known) => [...(known ?? []), found]), setTrouble);
  const found = pages?.flatMap((page) => page.found) ?? [];
  return (
    <SidePage title={words.title} lead={words.lead} trouble={trouble}>
      <SearchForm asked={asked} />
      <div aria-live="polite">
        {pages === null && trouble === null && <p className="empty">{ramp.asking}</p>}
        {unread > 0 && <p>{words.unread(unread)}</p>}
        {pages !== null && found.length === 0 && <p className="empty">{words.none}</p>}
      </div>
      <ol className="found-rows" aria-label={words.found}>
        {found.map((written) => (
          <FoundRow key={`${written.session} ${written.seq} ${written.part}`} written={written} />
        ))}
      </ol>
      {last?.next && (
        <button type="button" className="answer" data-tone="plain" onClick={() => void more(last.next ?? "")}>
          {words.more}
        </button>
      )}
    </SidePage>
  );
}
