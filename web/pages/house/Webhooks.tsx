import { useEffect, useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { type WebhooksNow, webhooks } from "../../net/webhooks.ts";
import { useInOutWords } from "../../words/inOut.ts";
import { useWords } from "../../words/words.ts";

/** The operator's webhooks: what waits, and what was given up, which can be sent once more. */
export function Webhooks({ onTrouble }: { onTrouble(error: Error | null): void }) {
  const words = useInOutWords();
  const [now, setNow] = useState<WebhooksNow | null>(null);
  const read = () => void webhooks.now().then(setNow, onTrouble);
  // biome-ignore lint/correctness/useExhaustiveDependencies: fetch once
  useEffect(read, []);
  if (!now) return null;
  return (
    <section className="own" aria-label={words.webhooks}>
      <h2>{words.webhooks}</h2>
      <p>{words.webhooksLead}</p>
      {now.targets.length === 0 && <p className="empty">{words.noWebhooks}</p>}
      <ul className="device-rows">
        {now.targets.map(({ name, host, here, waits }) => (
          <li key={name}>
            <strong>{name}</strong>
            <span>{host}</span>
            <span>{!here ? words.elsewhere : waits === null ? words.sends : words.waits(waits)}</span>
          </li>
        ))}
      </ul>
      {now.givenUp.length > 0 && (
        <>
          <h3>{words.givenUp(now.givenUp.length)}</h3>
          <ul className="device-rows">
            {now.givenUp.map((letter) => (
              <DeadLetter
                key={`${letter.target} ${letter.id}`}
                letter={letter}
                onTaken={read}
                onTrouble={onTrouble}
              />
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

interface LetterProps {
  letter: WebhooksNow["givenUp"][number];
  onTaken(): void;
  onTrouble(error: Error | null): void;
}

function DeadLetter({ letter, onTaken, onTrouble }: LetterProps) {
  const words = useInOutWords();
  const { language } = useWords().say;
  const [why, setWhy] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const again = () => {
    onTrouble(null);
    setBusy(true);
    webhooks
      .again(letter)
      .then((answer) => (answer.why === null ? onTaken() : setWhy(answer.why)), onTrouble)
      .finally(() => setBusy(false));
  };
  return (
    <li aria-label={`${letter.target} ${letter.id}`}>
      <strong>{letter.target}</strong>
      <span>
        {letter.kind}, {dayAndMinute(Date.parse(letter.at), language)}
      </span>
      <span role="status">{words.stillNot(why ?? letter.why)}</span>
      <button type="button" className="small-key" disabled={busy} onClick={again}>
        {words.again}
      </button>
    </li>
  );
}
