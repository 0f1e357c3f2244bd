import { useEffect, useRef } from "react";
import { postHeld } from "../../shared/session/postHeld.ts";
import { device, type Me } from "../net/keep.ts";
import type { Link, LinkView } from "../net/link.ts";

/** Says for the device which signals to its post it now shows, each once. It is never the person's answer. */
export function useDelivered(link: Link, { state }: LinkView, me: Me): void {
  const said = useRef(new Set<string>());
  const post = state && postHeld(state, { id: me.id, device: device().id });
  const shown =
    state && post
      ? state.signals.filter((s) => s.to.includes(post) && s.delivered[post] === undefined).map((s) => s.id)
      : [];
  const key = shown.join(" ");
  useEffect(() => {
    const fresh = key.split(" ").filter((id) => id !== "" && !said.current.has(`${post} ${id}`));
    if (fresh.length === 0) return;
    for (const id of fresh) said.current.add(`${post} ${id}`);
    link.act({ type: "delivered", signals: fresh.map(Number) });
  }, [key, link, post]);
}
