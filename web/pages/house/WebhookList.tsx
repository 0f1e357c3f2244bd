import { useState } from "react";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import type { WebhooksNow } from "../../net/webhooks.ts";
import { useInOutWords } from "../../words/inOut.ts";
import { useWords } from "../../words/words.ts";

interface ListProps {
  now: WebhooksNow;
  /** Sends a message once more. Resolves to why it was not taken; null when it was. */
  again(letter: WebhooksNow["givenUp"][number]): Promise<{ why: string | null }>;
  onTaken(): void;
  onTrouble(error: Error | null): void;
}

/** What was read of the webhooks. */
export function WebhookList({ now, ...acts }: ListProps) {
  const words = useInOutWords();
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
              <DeadLetter key={`${letter.target} ${letter.id}`} letter={letter} {...acts} />
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

interface LetterProps extends Omit<ListProps, "now"> {
  letter: WebhooksNow["givenUp"][number];
}

function DeadLetter({ letter, again, onTaken, onTrouble }: LetterProps) {
  const words = useInOutWords();
  const { language } = useWords().say;
  const [why, setWhy] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const send = () => {
    onTrouble(null);
    setBusy(true);
    again(letter)
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
      <button type="button" className="small-key" disabled={busy} onClick={send}>
        {words.again}
      </button>
    </li>
  );
}
