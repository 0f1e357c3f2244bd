import { type SyntheticEvent, useEffect, useState } from "react";
import { say } from "../../shared/words/en.ts";
import type { DemoSignIn } from "../net/api.ts";
import { api, signIn } from "../net/app.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { Keypad } from "../ui/Keypad.tsx";
import { go } from "./route.ts";

/** Who is at this panel: handle and PIN, or one touch while the data is a demonstration. */
export function SignIn({ join }: { join: string | null }) {
  const [handle, setHandle] = useState("");
  const [pin, setPin] = useState("");
  const [code, setCode] = useState(join ?? "");
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const [demo, setDemo] = useState<DemoSignIn[]>([]);
  useEffect(() => {
    void api.demo().then(
      (d) => setDemo(d.demo ? d.signIns : []),
      () => setTrouble("The server does not answer. Check this device's network."),
    );
  }, []);
  const enter = async (as: { handle: string; pin: string }) => {
    setBusy(true);
    setTrouble(null);
    try {
      await signIn(as.handle, as.pin);
      if (code.trim() && !join) go(`/?join=${encodeURIComponent(code.trim().toUpperCase())}`);
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : "That did not work.");
      setPin("");
      setBusy(false);
    }
  };
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    void enter({ handle, pin });
  };
  return (
    <main className="page sign-in">
      <header className="page-head">
        <h1>Chockside</h1>
        <p>Starting engines together: cockpit, fire guard, ground power, supervisor.</p>
      </header>
      {demo.length > 0 && <DemoSignIns signIns={demo} busy={busy} onPick={enter} />}
      <form className="sign-in-form" onSubmit={submit}>
        <h2>Sign in</h2>
        <label className="field">
          <span>Handle</span>
          <input
            value={handle}
            onChange={(e) => setHandle(e.target.value.trim())}
            autoCapitalize="none"
            autoCorrect="off"
            autoComplete="username"
            spellCheck={false}
          />
        </label>
        <Keypad label="PIN" value={pin} onChange={setPin} />
        <label className="field">
          <span>Joining code, if you were given one</span>
          <input
            value={code}
            maxLength={6}
            onChange={(e) => setCode(e.target.value.toUpperCase())}
            autoComplete="off"
          />
        </label>
        {trouble && (
          <p className="trouble" role="alert">
            {trouble}
          </p>
        )}
        <button
          type="submit"
          className="answer"
          data-tone="yes"
          disabled={busy || handle === "" || pin === ""}
        >
          {busy ? "Signing in…" : "Sign in"}
        </button>
      </form>
      <Caution />
    </main>
  );
}

interface DemoProps {
  signIns: readonly DemoSignIn[];
  busy: boolean;
  onPick(as: { handle: string; pin: string }): void;
}

function DemoSignIns({ signIns, busy, onPick }: DemoProps) {
  return (
    <section className="demo" aria-label="Demonstration">
      <h2>Demonstration</h2>
      <p>
        This server holds invented people and aircraft and open PINs. Not for a real start. Touch a name to
        sign in as that person; every window of this browser can be another one.
      </p>
      <ul>
        {signIns.map((s) => (
          <li key={s.handle}>
            <button type="button" className="demo-row" disabled={busy} onClick={() => onPick(s)}>
              <strong>{s.name}</strong>
              <span>{s.mayHold.length > 0 ? s.mayHold.map((p) => say.post(p)).join(", ") : "Observer"}</span>
              <code>
                {s.handle} {s.pin}
              </code>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
