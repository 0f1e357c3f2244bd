import { POSTS } from "../../shared/protocol/posts.ts";
import type { Links } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { LastHeard } from "../many/bus.ts";
import type { PanelSocket } from "./io.ts";

/**
 * Returns when this server last heard each post's holder, on a panel that watches this session and on the device that
 * holds the post. Milliseconds.
 */
export function heardOf(state: SessionState, watching: readonly PanelSocket[]): LastHeard {
  const latest: LastHeard = {};
  for (const post of POSTS) {
    const holder = state.posts[post];
    const heard = watching
      .filter(
        ({ data: { identity } }) => identity.person.id === holder?.id && identity.device.id === holder.device,
      )
      .map(({ data }) => data.heard);
    if (heard.length > 0) latest[post] = Math.max(...heard);
  }
  return latest;
}

/** Returns each post's link: whether any server hears its holder, and when one last did. */
export function linksOf(here: LastHeard, peers: LastHeard): Links {
  const links = {} as Links;
  for (const post of POSTS) {
    const heard = [here[post], peers[post]].filter((at) => at !== undefined);
    links[post] = { connected: heard.length > 0, lastHeard: heard.length === 0 ? null : Math.max(...heard) };
  }
  return links;
}
