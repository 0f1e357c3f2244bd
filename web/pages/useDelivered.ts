import { useEffect } from "react";
import { postHeld } from "../../shared/session/step.ts";
import { device, type Me } from "../net/keep.ts";
import type { Link, LinkView } from "../net/link.ts";

/** Says for the device which signals to its post it now shows. It is never the person's answer. */
export function useDelivered(link: Link, { state, outgoing }: LinkView, me: Me): void {
  const post = state && postHeld(state, { id: me.id, device: device().id });
  const saying = outgoing.some((o) => o.action.type === "delivered" && o.fate.is === "sending");
  const shown =
    state && post && !saying
      ? state.signals.filter((s) => s.to.includes(post) && s.delivered[post] === undefined).map((s) => s.id)
      : [];
  const key = shown.join(" ");
  useEffect(() => {
    if (key !== "") link.act({ type: "delivered", signals: key.split(" ").map(Number) });
  }, [key, link]);
}
