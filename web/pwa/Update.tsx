import { useState } from "react";
import { reloadNewest, takeUpdate, useUpdateReady } from "./update.ts";

/** Offers a new version where no session is shown. Nothing happens until it is asked for. */
export function UpdateOffer() {
  const ready = useUpdateReady();
  const [watched, setWatched] = useState(false);
  if (!ready) return null;
  return (
    <section className="notice-row" data-is="plain" aria-label="New version">
      <strong>A new version is ready.</strong>
      <span>
        {watched
          ? "Another window of this device watches a session: leave it first."
          : "It is taken up only when you say so."}
      </span>
      <button
        type="button"
        className="small-key"
        onClick={() => void takeUpdate().then((was) => setWatched(was === "watched"))}
      >
        Take the new version
      </button>
    </section>
  );
}

/** Within a session the new version waits. */
export function UpdateWaits() {
  return useUpdateReady() ? (
    <p className="notice-words">A new version is ready. It waits until you have left the session.</p>
  ) : null;
}

/** The server speaks another protocol than these panels: nothing shown can be trusted, nothing given is heard. */
export function OtherVersion() {
  const [busy, setBusy] = useState(false);
  return (
    <main className="page waiting" role="alert">
      <h1>Reload this panel</h1>
      <p>
        The server is of another version than this panel. Nothing given here is heard: use hand signals. What
        you have sent and was not recorded is kept.
      </p>
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
        {busy ? "Fetching the new version…" : "Reload now"}
      </button>
    </main>
  );
}
