import { POSTS } from "../../shared/protocol/posts.ts";
import type { Links } from "../../shared/protocol/wire.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { PanelSocket } from "./io.ts";

/** Who of the posts' holders is at a panel that watches this session, on the very device the post is held from. */
export function linksOf(state: SessionState, watching: readonly PanelSocket[]): Links {
  const links = {} as Links;
  for (const post of POSTS) {
    const holder = state.posts[post];
    const heard = watching
      .filter(
        ({ data: { identity } }) => identity.person.id === holder?.id && identity.device.id === holder.device,
      )
      .map(({ data }) => data.heard);
    links[post] = { connected: heard.length > 0, lastHeard: heard.length === 0 ? null : Math.max(...heard) };
  }
  return links;
}
