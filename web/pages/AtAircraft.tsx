import { useCallback, useEffect, useState } from "react";
import type { Item } from "../../shared/protocol/standing.ts";
import type { StandingRow } from "../net/api.ts";
import { api } from "../net/app.ts";
import { ago } from "../ui/numbers.ts";
import { Trouble } from "../ui/Trouble.tsx";
import type { Words } from "../words/catalogue.ts";
import { laterWords, useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";

/**
 * Every aircraft with what stands there, and keys to hold, cut or report fire without joining a session. One touch
 * sends: whoever sees danger from the ramp has no time to find a session first.
 */
export function AtAircraft({ ramp, mayEnd }: { ramp: number; mayEnd: boolean }) {
  const words = useWords();
  const { atAircraft: says } = useLaterWords();
  const [rows, setRows] = useState<StandingRow[] | null>(null);
  const [trouble, setTrouble] = useState<Error | null>(null);
  const [heard, setHeard] = useState<string | null>(null);
  const renew = useCallback(() => api.standing().then(setRows, setTrouble), []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of `ramp` triggers a new request
  useEffect(() => {
    void renew();
  }, [ramp, renew]);
  const report = async (aircraft: string, action: object, said: string) => {
    try {
      const answer = await api.report(aircraft, action);
      setTrouble(null);
      setHeard(answer.status === "accepted" ? said : words.say.refusal(answer.refusal));
      await renew();
    } catch (error) {
      setTrouble(error as Error);
    }
  };
  if (rows === null) return <Trouble of={trouble} />;
  return (
    <section className="at-aircraft" aria-label={says.region}>
      <h2>{says.region}</h2>
      <Trouble of={trouble} />
      {heard && <p role="status">{heard}</p>}
      {rows.map((row) => (
        <article key={row.aircraft} className="at-aircraft-row" aria-label={row.name}>
          <h3>{row.name}</h3>
          <ul>
            {row.items.length === 0 && <li>{says.nothing}</li>}
            {row.items.map(({ no, item }) => (
              <li key={no} data-kind={item.is}>
                <span>{itemWords(item, words)}</span>
                {mayEnd && row.open.length === 0 && (
                  <button
                    type="button"
                    className="small-key"
                    onClick={() =>
                      void report(row.aircraft, { type: "end", no, reason: says.endedHere }, says.ended)
                    }
                  >
                    {says.end}
                  </button>
                )}
              </li>
            ))}
          </ul>
          <nav className="head-keys" aria-label={says.stops(row.name)}>
            {(["hold", "cut", "fire"] as const).map((is) => (
              <button
                key={is}
                type="button"
                className="answer"
                data-tone="no"
                onClick={() => void report(row.aircraft, { type: "stop", is }, says.sent[is](row.name))}
              >
                {says.keys[is]}
              </button>
            ))}
          </nav>
        </article>
      ))}
    </section>
  );
}

function itemWords(item: Item, { say, text }: Words): string {
  const { atAircraft: says } = laterWords(say.language);
  const by = (who: { name: string; at: number }) =>
    `${say.person(who.name)}, ${ago(Date.now() - who.at, text)}`;
  switch (item.is) {
    case "hold":
      return `${says.keys.hold}${item.note ? `: ${item.note}` : ""}. ${by(item.by)}`;
    case "cut":
      return `${say.signal(item.engine === null ? "cutAll" : "cut", item.engine)}. ${by(item.by)}`;
    case "fire":
      return `${say.signal("fire", item.engine)}. ${by(item.by)}`;
    case "hands":
      return `${say.signal("handlePropeller", item.engine)}. ${by(item.by)}`;
    case "leave":
      return `${says.leave}: ${say.signal(item.service, null)}. ${by(item.by)}`;
    case "turning":
      return says.turning(item.engine);
    case "drill":
      return says.drill(item.drill);
    case "defect":
      return `${item.barsStart ? says.bars : says.defect}: ${item.words}. ${by(item.by)}`;
  }
}
