import { Suspense, useEffect, useState } from "react";
import { UNIT_SHEET_WORDS } from "../../shared/words/units.ts";
import { api, signOut, useLight, useLinkView } from "../net/app.ts";
import type { Me } from "../net/keep.ts";
import type { Link } from "../net/link.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { LightKey } from "../ui/LightKey.tsx";
import { later } from "../ui/later.tsx";
import { Strip } from "../ui/Strip.tsx";
import { LanguageKeys } from "./LanguageKeys.tsx";
import { PaperKey } from "./PaperKey.tsx";
import { go } from "./route.ts";
import { stripOf, useSessions } from "./useSessions.ts";

const UnitsSheet = later(() => import("./UnitsSheet.tsx").then((m) => m.UnitsSheet));

/** Every session on the ramp as a strip; planning and joining one. */
export function Ramp({ me, link, join }: { me: Me; link: Link; join: string | null }) {
  const { ramp } = useLinkView(link);
  const { listed, trouble } = useSessions(ramp);
  const [light, setLight] = useLight();
  const [choosing, setChoosing] = useState(false);
  const strips = (listed ?? []).map((l) => stripOf(l, null));
  const live = strips.filter((s) => !s.over);
  const over = strips.filter((s) => s.over);
  return (
    <main className="page ramp">
      <header className="page-head page-head-row">
        <div>
          <h1>The ramp</h1>
          <p>Signed in as {me.name}</p>
        </div>
        <nav className="head-keys">
          <button type="button" className="answer" data-tone="yes" onClick={() => go("/plan")}>
            Plan a start
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/types")}>
            Aircraft types
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/study")}>
            Hand signals
          </button>
          {me.mayHold.includes("supervisor") && (
            <button type="button" className="answer" data-tone="plain" onClick={() => go("/devices")}>
              Devices
            </button>
          )}
          <PaperKey path="/api/card.pdf" word="Print card" />
          <LightKey light={light} onLight={setLight} />
          <button type="button" className="answer" data-tone="plain" onClick={() => setChoosing(true)}>
            {UNIT_SHEET_WORDS.key}
          </button>
          <button type="button" className="answer" data-tone="plain" onClick={() => void signOut()}>
            Sign out
          </button>
        </nav>
      </header>
      {choosing && (
        <Suspense>
          <UnitsSheet onClose={() => setChoosing(false)} />
        </Suspense>
      )}
      <LanguageKeys person={me.id} />
      <Join code={join} />
      {trouble && (
        <p className="trouble" role="alert">
          {trouble}
        </p>
      )}
      <section className="board" aria-label="Live sessions">
        {live.map((s) => (
          <Strip key={s.id} strip={s} onOpen={() => go(`/session/${s.id}`)} />
        ))}
        {listed !== null && live.length === 0 && (
          <p className="empty">
            No aircraft is being started. Plan a start, or enter the code you were given.
          </p>
        )}
        {listed === null && trouble === null && <p className="empty">Asking the server…</p>}
      </section>
      {over.length > 0 && (
        <section className="board" aria-label="Ended sessions">
          <h2>Ended</h2>
          {over.map((s) => (
            <Strip key={s.id} strip={s} onOpen={() => go(`/session/${s.id}/record`)} />
          ))}
        </section>
      )}
      <Caution />
    </main>
  );
}

/** A joining code, from the address or entered. */
function Join({ code }: { code: string | null }) {
  const [typed, setTyped] = useState("");
  const [trouble, setTrouble] = useState<string | null>(null);
  const enter = (given: string) =>
    api.join(given.trim().toUpperCase()).then(
      ({ id }) => go(`/session/${id}`),
      (error: Error) => setTrouble(error.message),
    );
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for the code in the address
  useEffect(() => {
    if (code) void enter(code);
  }, [code]);
  return (
    <form
      className="join"
      onSubmit={(e) => {
        e.preventDefault();
        void enter(typed);
      }}
    >
      <label className="field">
        <span>Joining code</span>
        <input
          value={typed}
          maxLength={6}
          autoComplete="off"
          onChange={(e) => setTyped(e.target.value.toUpperCase())}
        />
      </label>
      <button type="submit" className="answer" data-tone="plain" disabled={typed.trim().length < 6}>
        Join
      </button>
      {trouble && (
        <p className="trouble" role="alert">
          {trouble}
        </p>
      )}
    </form>
  );
}
