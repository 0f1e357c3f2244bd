import { useEffect, useState } from "react";
import type { Post } from "../../shared/protocol/posts.ts";
import { api, useConnectionView } from "../net/app.ts";
import type { Connection } from "../net/connection.ts";
import { wishFor } from "../posts/observer/wished.ts";
import { play, unlockSound } from "../senses/player.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { isFresh } from "./connectionWords.ts";
import { go } from "./route.ts";

/** Time after which the offers are asked for again, in case a message of the server was lost, milliseconds. */
const RENEW_MS = 15_000;

interface Offer {
  session: string;
  aircraft: string;
  post: Post;
}

/** Calls this person to each post that is offered to them, above whatever page is open, with one tone for each. */
export function OfferCall({ connection }: { connection: Connection }) {
  const { say } = useWords();
  const { rampPage: says } = useLaterWords();
  const view = useConnectionView(connection);
  const offers = useOffers(view.ramp, view.phase);
  return offers.map((offer) => (
    <section
      key={`${offer.session} ${offer.post}`}
      className="notice-row offer-call"
      data-is="plain"
      role="alert"
      aria-label={says.offered(say.post(offer.post).toLowerCase())}
    >
      <strong>{says.offered(say.post(offer.post).toLowerCase())}</strong>
      <span>{offer.aircraft}</span>
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={!isFresh(view, Date.now())}
        onClick={() => take(connection, offer)}
      >
        {says.take}
      </button>
    </section>
  ));
}

/** Accepts the offer in the session that is open, or opens its session, which accepts it. */
function take(connection: Connection, { session, post }: Offer): void {
  const { state } = connection.view();
  if (state?.id === session) {
    connection.act({ type: "acceptPost", post });
    return;
  }
  wishFor(session, post);
  go(`/session/${session}`);
}

function useOffers(ramp: number, phase: string): Offer[] {
  const [offers, setOffers] = useState<Offer[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of `ramp` or a new connection triggers a request
  useEffect(() => {
    let wanted = true;
    const renew = async () => {
      const rows = await api.sessions().catch(() => null);
      if (!wanted || rows === null) return;
      setOffers(
        rows.flatMap(({ id, aircraft, offered }) => offered.map((post) => ({ session: id, aircraft, post }))),
      );
    };
    void renew();
    const timer = setInterval(renew, RENEW_MS);
    return () => {
      wanted = false;
      clearInterval(timer);
    };
  }, [ramp, phase]);
  const called = offers.map((o) => `${o.session} ${o.post}`).join();
  useEffect(() => {
    if (called !== "") play("asked");
  }, [called]);
  useEffect(() => {
    document.addEventListener("pointerdown", unlockSound);
    return () => document.removeEventListener("pointerdown", unlockSound);
  }, []);
  return offers;
}
