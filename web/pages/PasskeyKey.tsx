import { useEffect, useState } from "react";
import { enterAs } from "../net/app.ts";
import type { Me } from "../net/keep.ts";
import { passkeys } from "../net/passkeys.ts";
import { usePersonWords } from "../words/person.ts";

interface Props {
  busy: boolean;
  onEnter(enter: () => Promise<Me>): void;
}

/** A key to sign in by passkey, on an enrolled device whose browser supports them. */
export function PasskeyKey({ busy, onEnter }: Props) {
  const words = usePersonWords();
  const [here, setHere] = useState(false);
  useEffect(() => {
    void passkeys.here().then(setHere);
  }, []);
  if (!here) return null;
  const enter = () =>
    passkeys.signIn().catch((error: unknown) => {
      // The browser's own error text helps nobody.
      throw error instanceof DOMException ? new Error(words.noPasskey) : error;
    });
  return (
    <button
      type="button"
      className="answer"
      data-tone="plain"
      disabled={busy}
      onClick={() => onEnter(async () => enterAs(await enter()))}
    >
      {words.byPasskey}
    </button>
  );
}
