import { useState } from "react";
import { useWords } from "../words/words.ts";
import { reloadNewest, useUpdateReady } from "./update.ts";

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
