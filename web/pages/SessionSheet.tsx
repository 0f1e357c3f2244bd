import { useEffect, useState } from "react";
import { isOver } from "../../shared/session/state.ts";
import { UNIT_SHEET_WORDS } from "../../shared/words/units.ts";
import { api, signOut } from "../net/app.ts";
import type { Panel } from "../posts/shared/model.ts";
import { PostsSheet } from "../posts/shared/PostsSheet.tsx";
import { UpdateWaits } from "../pwa/Update.tsx";
import { Qr } from "../ui/Qr.tsx";
import { ReasonEntry } from "../ui/ReasonEntry.tsx";
import { Sheet } from "../ui/Sheet.tsx";
import { LanguageKeys } from "./LanguageKeys.tsx";
import { PaperKey } from "./PaperKey.tsx";
import { go } from "./route.ts";
import { UnitsSheet } from "./UnitsSheet.tsx";

const ABANDON_REASONS = ["Weather", "Defect found", "Crew not available"];

/** Posts and everything about the session that is not the work itself. */
export function SessionSheet({ panel, onClose }: { panel: Panel; onClose(): void }) {
  const [code, setCode] = useState<string | null>(null);
  const [abandoning, setAbandoning] = useState(false);
  const [choosing, setChoosing] = useState(false);
  const { id } = panel.state;
  useEffect(() => {
    api.sessions().then(
      (rows) => setCode(rows.find((r) => r.id === id)?.code ?? null),
      () => undefined,
    );
  }, [id]);
  const mayAbandon = (panel.post === "supervisor" || panel.post === "cockpit") && !isOver(panel.state);
  if (abandoning) {
    return (
      <Sheet title="Abandon this session" onClose={onClose}>
        <ReasonEntry
          prompt="Why is it abandoned?"
          usual={ABANDON_REASONS}
          word="Abandon"
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
  if (choosing) return <UnitsSheet onClose={() => setChoosing(false)} />;
  return (
    <Sheet title={`${panel.state.aircraft}: posts and session`} onClose={onClose}>
      <PostsSheet panel={panel} />
      <UpdateWaits />
      {code && (
        <section className="join-code">
          <div>
            <h3>Join on another device</h3>
            <p className="code">{code}</p>
          </div>
          <Qr text={`${location.origin}/?join=${code}`} label={`Join with code ${code}`} />
        </section>
      )}
      <LanguageKeys person={panel.me.id} />
      <div className="option-keys">
        <button type="button" className="answer" data-tone="plain" onClick={() => setChoosing(true)}>
          {UNIT_SHEET_WORDS.key}
        </button>
        <button
          type="button"
          className="answer"
          data-tone="plain"
          onClick={() => go(`/session/${id}/record`)}
        >
          Record
        </button>
        <PaperKey path={`/api/sessions/${id}/brief.pdf`} word="Print brief" />
        <PaperKey path={`/api/sessions/${id}/record.pdf`} word="Print record" />
        <button type="button" className="answer" data-tone="plain" onClick={() => go("/")}>
          The ramp
        </button>
        {mayAbandon && (
          <button type="button" className="answer" data-tone="no" onClick={() => setAbandoning(true)}>
            Abandon session
          </button>
        )}
        <button type="button" className="answer" data-tone="plain" onClick={() => void signOut()}>
          Sign out
        </button>
      </div>
    </Sheet>
  );
}
