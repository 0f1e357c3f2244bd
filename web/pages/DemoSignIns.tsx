import "../styles/ramp.css";
import type { DemoSignIn } from "../net/api.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { DemoKeys } from "./DemoKeys.tsx";
import { PLAYS, type Play, personFor } from "./played.ts";

interface Props {
  signIns: readonly DemoSignIn[];
  /** True when the server can play a scripted crew. */
  crews: boolean;
  busy: boolean;
  /** `play`: what the person does once signed in; null for nothing. */
  onPick(as: DemoSignIn, play: Play | null): void;
}

/** The demo's ways in: its crew with one touch, and its people, folded while there is a crew. */
export function DemoSignIns({ signIns, crews, busy, onPick }: Props) {
  const { demo, signIn: words } = useLaterWords();
  const people = <People signIns={signIns} busy={busy} onPick={(as) => onPick(as, null)} />;
  return (
    <section className="demo" aria-label={words.demo}>
      <h2>{words.demo}</h2>
      <p>{words.demoLead}</p>
      {crews && (
        <DemoKeys
          plays={PLAYS.filter((p) => personFor(p, signIns) !== null)}
          busy={busy}
          onPlay={(play) => {
            const as = personFor(play, signIns);
            if (as) onPick(as, play);
          }}
        />
      )}
      {crews ? (
        <details>
          <summary className="small-key">{demo.people}</summary>
          {people}
        </details>
      ) : (
        people
      )}
    </section>
  );
}

function People({
  signIns,
  busy,
  onPick,
}: Pick<Props, "signIns" | "busy"> & { onPick(as: DemoSignIn): void }) {
  const { say } = useWords();
  return (
    <ul>
      {signIns.map((s) => (
        <li key={s.handle}>
          <button type="button" className="demo-row" disabled={busy} onClick={() => onPick(s)}>
            <strong>{s.name}</strong>
            <span>{s.mayHold.length > 0 ? s.mayHold.map(say.post).join(", ") : say.post(null)}</span>
            <code>
              {s.handle} {s.pin}
            </code>
          </button>
        </li>
      ))}
    </ul>
  );
}
