import { Suspense, type SyntheticEvent, useEffect, useState } from "react";
import type { DemoSignIn } from "../net/api.ts";
import { api, signIn } from "../net/app.ts";
import type { Me } from "../net/keep.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { Keypad } from "../ui/Keypad.tsx";
import { later } from "../ui/later.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import { VersionLine } from "../ui/VersionLine.tsx";
import { chosenBy, keep } from "../words/kept.ts";
import { useLaterWords } from "../words/later.ts";
import { speak, useWords } from "../words/words.ts";
import { go } from "./route.ts";

const DemoSignIns = later(() => import("./DemoSignIns.tsx").then((m) => m.DemoSignIns));
const EmptyHouse = later(() => import("./first/EmptyHouse.tsx").then((m) => m.EmptyHouse));
const LanguageKeys = later(() => import("./LanguageKeys.tsx").then((m) => m.LanguageKeys));
const PasskeyKey = later(() => import("./PasskeyKey.tsx").then((m) => m.PasskeyKey));

/** Signs a person in by handle and PIN, or by one touch while the data is the demo. */
export function SignIn({ join }: { join: string | null }) {
  const { say, text } = useWords();
  const { signIn: words } = useLaterWords();
  const [handle, setHandle] = useState("");
  const [pin, setPin] = useState("");
  const [code, setCode] = useState(join ?? "");
  const [trouble, setTrouble] = useState<"noServer" | Error | null>(null);
  const [busy, setBusy] = useState(false);
  const [demo, setDemo] = useState<DemoSignIn[] | null>(null);
  const [crews, setCrews] = useState(false);
  useEffect(() => {
    void api.demo().then(
      (d) => {
        setDemo(d.demo ? d.signIns : []);
        setCrews(d.crews);
      },
      () => {
        setDemo([]);
        setTrouble("noServer");
      },
    );
  }, []);
  const enter = async (as: () => Promise<Me>) => {
    setBusy(true);
    setTrouble(null);
    try {
      const person = await as();
      const language = chosenBy(person.id);
      if (language) await speak(language).catch(() => undefined);
      else keep(say.language, person.id);
      if (code.trim() && !join) go(`/?join=${encodeURIComponent(code.trim().toUpperCase())}`);
    } catch (error) {
      setTrouble(error instanceof Error ? error : new Error(words.failed));
      setPin("");
      setBusy(false);
    }
  };
  const submit = (event: SyntheticEvent) => {
    event.preventDefault();
    void enter(() => signIn(handle, pin));
  };
  return (
    <main className="page sign-in">
      <header className="page-head" data-asking={demo === null || undefined}>
        <h1>Chockside</h1>
        <p>{words.lead}</p>
      </header>
      <Suspense fallback={<div className="keys-to-come" />}>
        <LanguageKeys person={null} />
      </Suspense>
      {demo !== null && demo.length > 0 && (
        <Suspense fallback={<section className="demo" aria-label={words.demo} />}>
          <DemoSignIns
            signIns={demo}
            crews={crews}
            busy={busy}
            onPick={(as, play) => {
              // Before the sign-in, after which this page is gone.
              if (play) go(`/?play=${play}`);
              void enter(() => signIn(as.handle, as.pin));
            }}
          />
        </Suspense>
      )}
      <form className="sign-in-form" onSubmit={submit}>
        <h2>{words.title}</h2>
        <label className="field">
          <span>{words.handle}</span>
          <input
            name="handle"
            value={handle}
            onChange={(e) => setHandle(e.target.value.trim())}
            autoCapitalize="none"
            autoCorrect="off"
            autoComplete="username"
            spellCheck={false}
          />
        </label>
        <Keypad label={words.pin} value={pin} onChange={setPin} />
        <label className="field">
          <span>{words.code}</span>
          <input
            name="code"
            value={code}
            maxLength={6}
            onChange={(e) => setCode(e.target.value.toUpperCase())}
            autoComplete="off"
          />
        </label>
        <Trouble of={trouble === "noServer" ? new Error(text.net.noServer) : trouble} />
        <button
          type="submit"
          className="answer"
          data-tone="yes"
          disabled={busy || handle === "" || pin === ""}
        >
          {busy ? words.entering : words.enter}
        </button>
        <Suspense fallback={null}>
          <PasskeyKey busy={busy} onEnter={(as) => void enter(as)} />
        </Suspense>
        <Suspense fallback={null}>{demo?.length === 0 && <EmptyHouse />}</Suspense>
        <button type="button" className="small-key" onClick={() => go("/enrol")}>
          {words.enrol}
        </button>
      </form>
      <Caution />
      <VersionLine />
    </main>
  );
}
