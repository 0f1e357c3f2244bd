import { useState } from "react";
import { useWords } from "../words/words.ts";
import { takeUpdate, useUpdateReady } from "./update.ts";

/** Offers a new version on pages without a session. Loads it only when a person asks. */
export function UpdateOffer() {
  const { update } = useWords().text;
  const ready = useUpdateReady();
  const [watched, setWatched] = useState(false);
  if (!ready) return null;
  return (
    <section className="notice-row" data-is="plain" aria-label={update.region}>
      <strong>{update.ready}</strong>
      <span>{watched ? update.watched : update.asked}</span>
      <button
        type="button"
        className="small-key"
        onClick={() => void takeUpdate().then((was) => setWatched(was === "watched"))}
      >
        {update.take}
      </button>
    </section>
  );
}
