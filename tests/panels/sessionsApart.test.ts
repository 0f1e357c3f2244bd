import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { Links } from "../../shared/protocol/wire.ts";
import { type Outgoing, outgoingOf, withOutcome } from "../../web/net/outgoing.ts";
import { postCells } from "../../web/pages/connectionWords.ts";
import { TakePost } from "../../web/posts/observer/TakePost.tsx";
import type { Panel } from "../../web/posts/shared/model.ts";
import { PostsSheet } from "../../web/posts/shared/PostsSheet.tsx";
import { wordsNow } from "../../web/words/words.ts";
import { fay, given, type Story } from "../spec/given.ts";

const outcome = (session: string, id: string, at = 0): Outgoing => ({
  id,
  session,
  at,
  action: { type: "present" },
  status: { is: "recorded", seq: 1 },
});

describe("what a person sent", () => {
  it("[PAN-31] is shown in its own session only", () => {
    const outcomes = [outcome("closed", "nobody hears it here"), outcome("live", "now")].reduce(
      withOutcome,
      [] as Outgoing[],
    );
    expect(outgoingOf([], outcomes, "live", 0).map((o) => o.id)).toEqual(["now"]);
    expect(outgoingOf([], outcomes, "closed", 0).map((o) => o.id)).toEqual(["nobody hears it here"]);
    expect(outgoingOf([], outcomes, "", 0)).toEqual([]);
  });

  it("[PAN-31] stays when messages are sent in another session", () => {
    const busy = Array.from({ length: 20 }, (_, i) => outcome("busy", String(i), i));
    const outcomes = [outcome("quiet", "said"), ...busy].reduce(withOutcome, [] as Outgoing[]);
    expect(outgoingOf([], outcomes, "quiet", 0)).toHaveLength(1);
    expect(outgoingOf([], outcomes, "busy", 0).length).toBeLessThan(20);
  });
});

const me = { id: "eve", name: "Eve", handle: "eve", mayHold: [...fay.mayHold], demo: true };
const panelOf = ({ state, now }: Story) =>
  ({ state, now, me, post: null, people: [], fresh: true, words: wordsNow() }) as unknown as Panel;

/** Returns a session with one post left free, and the same session abandoned. */
function sessions() {
  const live = given({}).manned();
  live.say("groundPower", { type: "leavePost", post: "groundPower" });
  const over = live.copy();
  over.say("supervisor", { type: "abandon", reason: "weather" });
  expect(over.state.stage).toBe("abandoned");
  return { live, over };
}

describe("a session that is over", () => {
  it("[PAN-31] offers no key to take, offer or leave a post", () => {
    const { live, over } = sessions();
    const take = (story: Story) =>
      renderToStaticMarkup(createElement(TakePost, { panel: panelOf(story), onPosts: () => {} }));
    const sheet = (story: Story) =>
      renderToStaticMarkup(createElement(PostsSheet, { panel: panelOf(story) }));
    expect(take(live)).toContain("Take a post");
    expect(take(over)).toBe("");
    expect(sheet(live)).toContain("<button");
    expect(sheet(over)).not.toContain("<button");
    expect(sheet(over)).toContain("Ada");
  });

  it("[PAN-31] gives no warning about a post that is not connected", () => {
    const { live, over } = sessions();
    const gone = { connected: false, lastHeard: null };
    const links = { cockpit: gone, fireGuard: gone, groundPower: gone, supervisor: gone } as unknown as Links;
    const cells = ({ state, now }: Story) => postCells(state, links, me, null, now, true, "no", wordsNow());
    expect(cells(live).map((c) => c.is)).toEqual(["silent", "silent", "vacant", "silent"]);
    expect(cells(live).map((c) => c.wants)).toEqual([null, null, "touch to take", null]);
    expect(cells(over).map((c) => c.is)).toEqual(["fresh", "fresh", "vacant", "fresh"]);
    expect(cells(over).every((c) => c.wants === null && c.link === "session over")).toBe(true);
  });
});
