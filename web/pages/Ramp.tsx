import { Suspense, useEffect, useState } from "react";
import { api, signOut, useConnectionView, useLight } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import type { Me } from "../net/keep.ts";
import { useMoment } from "../net/now.ts";
import { Caution } from "../posts/shared/Caution.tsx";
import { LightKey } from "../ui/LightKey.tsx";
import { later } from "../ui/later.tsx";
import { Strip } from "../ui/Strip.tsx";
import { Trouble } from "../ui/Trouble.tsx";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { PaperKey } from "./PaperKey.tsx";
import type { Play } from "./played.ts";
import { go } from "./route.ts";
import { stripsOf } from "./strips.ts";
import { useSessions } from "./useSessions.ts";

const AtAircraft = later(() => import("./AtAircraft.tsx").then((m) => m.AtAircraft));
const DemoStart = later(() => import("./DemoStart.tsx").then((m) => m.DemoStart));
const HouseSteps = later(() => import("./HouseSteps.tsx").then((m) => m.HouseSteps));
const LanguageKeys = later(() => import("./LanguageKeys.tsx").then((m) => m.LanguageKeys));
const ScreenSheet = later(() => import("./ScreenSheet.tsx").then((m) => m.ScreenSheet));
const UnitsSheet = later(() => import("./UnitsSheet.tsx").then((m) => m.UnitsSheet));

/** Every session on the ramp as a strip, with keys to plan and join one. */
interface Props {
  me: Me;
  connection: Connection;
  /** Joining code in the address. */
  join: string | null;
  /** What the address asks of the demo's crew. */
  play: Play | null;
}

export function Ramp({ me, connection, join, play }: Props) {
  const words = useWords();
  const { ramp: says } = words.text;
  const { board, house, screen, units } = useLaterWords();
  const view = useConnectionView(connection);
  const { ramp } = view;
  const { listed, trouble } = useSessions(ramp, words);
  const [light, setLight] = useLight();
  const [choosing, setChoosing] = useState<"units" | "screen" | null>(null);
  const { server } = useMoment(connection, view);
  const strips = stripsOf(listed ?? [], null, words, server);
  const live = strips.filter((s) => !s.over);
  const over = strips.filter((s) => s.over);
  return (
    <main className="page ramp">
      <header className="page-head page-head-row">
        <div>
          <h1>{says.title}</h1>
          <p>{says.signedIn(me.name)}</p>
        </div>
        <nav className="head-keys">
          <button type="button" className="answer" data-tone="yes" onClick={() => go("/plan")}>
            {says.plan}
          </button>
          <LightKey light={light} onLight={setLight} />
        </nav>
      </header>
      {choosing && (
        <Suspense>
          {choosing === "units" && <UnitsSheet onClose={() => setChoosing(null)} />}
          {choosing === "screen" && <ScreenSheet onClose={() => setChoosing(null)} />}
        </Suspense>
      )}
      <Trouble of={trouble} />
      <section
        className="board"
        aria-label={says.live}
        data-asking={(listed === null && trouble === null) || undefined}
      >
        {live.map((s) => (
          <Strip key={s.id} strip={s} onOpen={() => go(`/session/${s.id}`)} />
        ))}
        {listed !== null && live.length === 0 && <p className="empty">{says.none}</p>}
        {listed === null && trouble === null && <p className="empty">{says.asking}</p>}
      </section>
      {!me.demo && (
        <Suspense>
          <HouseSteps me={me} />
        </Suspense>
      )}
      <Suspense>
        <AtAircraft ramp={ramp} mayEnd={me.mayHold.includes("supervisor")} />
      </Suspense>
      {over.length > 0 && (
        <section className="board" aria-label={says.over}>
          <h2>{says.ended}</h2>
          {over.map((s) => (
            <Strip key={s.id} strip={s} onOpen={() => go(`/session/${s.id}/record`)} />
          ))}
        </section>
      )}
      {me.demo && (
        <Suspense>
          <DemoStart me={me} play={play} />
        </Suspense>
      )}
      <Join code={join} />
      <nav className="head-keys ramp-more" aria-label={says.more}>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/board")}>
          {board.title}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/aircraft")}>
          {says.aircraft}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/equipment")}>
          {house.equipment}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/types")}>
          {says.types}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/study")}>
          {says.signals}
        </button>
        {me.mayHold.includes("supervisor") && (
          <button type="button" className="answer" data-tone="plain" onClick={() => go("/devices")}>
            {says.devices}
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/people")}>
          {says.people}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/house")}>
          {house.title}
        </button>
        <PaperKey path="/api/card.pdf" word={says.card} />
        <button type="button" className="answer" data-tone="plain" onClick={() => setChoosing("units")}>
          {units.title}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => setChoosing("screen")}>
          {screen.title}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => void signOut()}>
          {says.signOut}
        </button>
      </nav>
      <Suspense fallback={<div className="keys-to-come" />}>
        <LanguageKeys person={me.id} />
      </Suspense>
      <Caution />
    </main>
  );
}

/** Joins a session by a code, from the address or entered. */
function Join({ code }: { code: string | null }) {
  const { ramp } = useWords().text;
  const [typed, setTyped] = useState("");
  const [trouble, setTrouble] = useState<Error | null>(null);
  const enter = (given: string) =>
    api.join(given.trim().toUpperCase()).then(({ id }) => go(`/session/${id}`), setTrouble);
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
        <span>{ramp.code}</span>
        <input
          name="code"
          value={typed}
          maxLength={6}
          autoComplete="off"
          onChange={(e) => setTyped(e.target.value.toUpperCase())}
        />
      </label>
      <button type="submit" className="answer" data-tone="plain" disabled={typed.trim().length < 6}>
        {ramp.join}
      </button>
      <Trouble of={trouble} />
    </form>
  );
}
