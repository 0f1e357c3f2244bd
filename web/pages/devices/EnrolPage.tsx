import { type SyntheticEvent, useEffect, useState } from "react";
import { api, forgetSignIn } from "../../net/app.ts";
import { enrol } from "../../net/enrol.ts";
import { Trouble } from "../../ui/Trouble.tsx";
import { useDeviceWords } from "../../words/devices.ts";
import { useLaterWords } from "../../words/later.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";
import { codeInAddress } from "./codeInAddress.ts";

/** Enrols this device by a one-time code that somebody of the office shows. */
export function EnrolPage() {
  const words = useDeviceWords();
  const { text } = useWords();
  const { signIn } = useLaterWords();
  const [code, setCode] = useState(codeInAddress);
  const [name, setName] = useState<string | null>(null);
  const [had, setHad] = useState(false);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    void api.enrolled().then(setHad);
  }, []);
  const submit = async (event: SyntheticEvent) => {
    event.preventDefault();
    setBusy(true);
    setTrouble(null);
    try {
      const known = await enrol(code);
      // To the server, an earlier sign-in here was on another device.
      forgetSignIn();
      setName(known);
    } catch (error) {
      setTrouble(error instanceof Error ? error : new Error(signIn.failed));
    }
    setBusy(false);
  };
  if (name !== null)
    return (
      <main className="page">
        <header className="page-head">
          <h1>{words.enrolled}</h1>
          <p>{words.known(name)}</p>
        </header>
        <button type="button" className="answer" data-tone="yes" onClick={() => go("/")}>
          {signIn.enter}
        </button>
      </main>
    );
  return (
    <main className="page">
      <header className="page-head">
        <h1>{words.enrolThis}</h1>
        <p>{words.how}</p>
        {had && <p>{words.had}</p>}
      </header>
      <form className="sign-in-form" onSubmit={submit}>
        <label className="field">
          <span>{words.code}</span>
          <input
            name="code"
            value={code}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            onChange={(e) => setCode(e.target.value)}
          />
        </label>
        <Trouble of={trouble} />
        <button type="submit" className="answer" data-tone="yes" disabled={busy || code.trim() === ""}>
          {busy ? words.enrolling : words.enrol}
        </button>
        <button type="button" className="small-key" onClick={() => go("/")}>
          {text.entry.back}
        </button>
      </form>
    </main>
  );
}
