import { useState } from "react";
import { useWords } from "../words/words.ts";
import { reloadNewest, takeUpdate, useUpdateReady } from "./update.ts";

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

/** Tells people in a session that a new version waits until they leave. */
export function UpdateWaits() {
  const { update } = useWords().text;
  return useUpdateReady() ? <p className="notice-words">{update.waits}</p> : null;
}

/**
 * The page shown when the server uses another protocol version. Panels must not run then: neither display nor
 * commands can be trusted.
 */
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
