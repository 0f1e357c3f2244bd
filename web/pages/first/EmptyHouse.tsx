import { useEffect, useState } from "react";
import { house } from "../../net/house.ts";
import { useHouseWords } from "../../words/house.ts";
import { go } from "../route.ts";

/** On the sign-in page of a house in which nobody can sign in yet: the way to its first run. */
export function EmptyHouse() {
  const words = useHouseWords();
  const [open, setOpen] = useState(false);
  useEffect(() => {
    house.now().then(
      ({ firstRun }) => setOpen(firstRun),
      () => undefined,
    );
  }, []);
  if (!open) return null;
  return (
    <section className="entry" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p>{words.empty}</p>
      <button type="button" className="answer" data-tone="yes" onClick={() => go("/first")}>
        {words.toFirst}
      </button>
    </section>
  );
}
