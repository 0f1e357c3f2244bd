import { POSTS } from "../../shared/protocol/posts.ts";
import type { Links } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Heard } from "../many/bus.ts";
import type { PanelSocket } from "./io.ts";

/** Which posts' holders this server hears at a panel that watches this session, on the device the post is held from. */
export function heardOf(state: SessionState, watching: readonly PanelSocket[]): Heard {
  const latest: Heard = {};
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

/** Who is there, on whichever server. */
export function linksOf(here: Heard, elsewhere: Heard): Links {
  const links = {} as Links;
  for (const post of POSTS) {
    const heard = [here[post], elsewhere[post]].filter((at) => at !== undefined);
    links[post] = { connected: heard.length > 0, lastHeard: heard.length === 0 ? null : Math.max(...heard) };
  }
  return links;
}
