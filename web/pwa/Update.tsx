import { useState } from "react";
import { useWords } from "../words/words.ts";
import { reloadNewest, takeUpdate, useUpdateReady } from "./update.ts";

/** Offers a new version where no session is shown. Nothing happens until it is asked for. */
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

/** Within a session the new version waits. */
export function UpdateWaits() {
  const { update } = useWords().text;
  return useUpdateReady() ? <p className="notice-words">{update.waits}</p> : null;
}

/** The server speaks another protocol than these panels: nothing shown can be trusted, nothing given is heard. */
export function OtherVersion() {
  const { update } = useWords().text;
  const [busy, setBusy] = useState(false);
  return (
    <main className="page waiting" role="alert">
      <h1>{update.reload}</h1>
      <p>{update.mismatch}</p>
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={busy}
        onClick={() => {
          setBusy(true);
          void reloadNewest();
        }}
      >
        {busy ? update.fetching : update.now}
      </button>
    </main>
  );
}
