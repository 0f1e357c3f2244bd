import { useEffect, useState } from "react";
import { isOver } from "../../shared/session/state.ts";
import { api, signOut } from "../net/app.ts";
import { DefectsSheet } from "../posts/shared/DefectsSheet.tsx";
import { DrillsSheet } from "../posts/shared/DrillsSheet.tsx";
import type { Panel } from "../posts/shared/model.ts";
import { PostsSheet } from "../posts/shared/PostsSheet.tsx";
import { UpdateWaits } from "../pwa/Update.tsx";
import { TeachKeys } from "../remote/TeachKeys.tsx";
import { mayTest } from "../senses/mayTest.ts";
import { TestSignal } from "../senses/TestSignal.tsx";
import { keepTest } from "../senses/tested.ts";
import { Qr } from "../ui/Qr.tsx";
import { ReasonEntry } from "../ui/ReasonEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { StandSheet } from "./equipment/StandSheet.tsx";
import { LanguageKeys } from "./LanguageKeys.tsx";
import { PaperKey } from "./PaperKey.tsx";
import { PlanChange } from "./PlanChange.tsx";
import { go } from "./route.ts";
import { ScreenSheet } from "./ScreenSheet.tsx";
import { UnitsSheet } from "./UnitsSheet.tsx";

/** A sheet with the posts and all settings of the session that are not the work itself. */
export function SessionSheet({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const { ramp } = panel.words.text;
  const { senses, sessionSheet: words } = useLaterWords();
  const later = useLaterWords();
  const [code, setCode] = useState<string | null>(null);
  const [abandoning, setAbandoning] = useState(false);
  const [open, setOpen] = useState<
    "defects" | "drills" | "equipment" | "plan" | "units" | "screen" | "test" | null
  >(null);
  const { text } = useWords();
  const { id } = panel.state;
  useEffect(() => {
    api.sessions().then(
      (rows) => setCode(rows.find((r) => r.id === id)?.code ?? null),
      () => undefined,
    );
  }, [id]);
  const over = isOver(panel.state);
  const mayAbandon = (panel.post === "supervisor" || panel.post === "cockpit") && !over;
  if (abandoning) {
    return (
      <Sheet title={words.abandonTitle} onClose={onClose}>
        <ReasonEntry
          prompt={words.abandonWhy}
          usual={Object.values(words.abandonReasons)}
          word={words.abandonDo}
          disabled={!panel.fresh}
          onEnter={(reason) => {
            panel.act({ type: "abandon", reason });
            onClose();
          }}
          onBack={() => setAbandoning(false)}
        />
      </Sheet>
    );
  }
  if (open === "defects") return <DefectsSheet panel={panel} onClose={() => setOpen(null)} />;
  if (open === "drills")
    return <DrillsSheet panel={panel} onOpened={onClose} onClose={() => setOpen(null)} />;
  if (open === "equipment") return <StandSheet panel={panel} onClose={() => setOpen(null)} />;
  if (open === "plan") return <PlanChange panel={panel} onClose={() => setOpen(null)} />;
  if (open === "units") return <UnitsSheet onClose={() => setOpen(null)} />;
  if (open === "test")
    return (
      <Sheet title={senses.region} onClose={() => setOpen(null)}>
        <TestSignal
          onFlash={() => undefined}
          onTested={(answer) => {
            keepTest(answer);
            setOpen(null);
          }}
          onLater={null}
        />
        <TeachKeys />
      </Sheet>
    );
  if (open === "screen") return <ScreenSheet onClose={() => setOpen(null)} />;
  return (
    <Sheet title={words.sheet(panel.state.aircraft)} onClose={onClose}>
      <PostsSheet panel={panel} />
      <UpdateWaits />
      {code && (
        <section className="join-code">
          <div>
            <h3>{words.joinTitle}</h3>
            <p className="code">{code}</p>
          </div>
          <Qr text={`${location.origin}/?join=${code}`} label={words.joinCode(code)} />
        </section>
      )}
      <LanguageKeys person={panel.me.id} />
      <div className="option-keys">
        {!over && (
          <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("defects")}>
            {later.defects.key}
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("equipment")}>
          {later.house.atStand}
        </button>
        {!over && panel.post !== null && (
          <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("drills")}>
            {text.options.drill}
          </button>
        )}
        {mayAbandon && (
          <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("plan")}>
            {later.planChange.key}
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("units")}>
          {later.units.title}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("screen")}>
          {later.screen.title}
        </button>
        {panel.post !== null && mayTest(panel) && (
          <button type="button" className="answer" data-tone="plain" onClick={() => setOpen("test")}>
            {senses.test}
          </button>
        )}
        <button
          type="button"
          className="answer"
          data-tone="plain"
          onClick={() => go(`/session/${id}/record`)}
        >
          {words.record}
        </button>
        <PaperKey path={`/api/sessions/${id}/brief.pdf`} word={words.printBrief} />
        <PaperKey path={`/api/sessions/${id}/record.pdf`} word={words.printRecord} />
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
          {ramp.title}
        </button>
        {mayAbandon && (
          <button type="button" className="answer" data-tone="no" onClick={() => setAbandoning(true)}>
            {words.abandon}
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={() => void signOut()}>
          {ramp.signOut}
        </button>
      </div>
    </Sheet>
  );
}
