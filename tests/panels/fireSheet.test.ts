import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import type { Outgoing } from "../../web/net/outgoing.ts";
import { FireSheet } from "../../web/posts/shared/FireSheet.tsx";
import { fireView } from "../../web/posts/shared/fireView.ts";
import type { Panel } from "../../web/posts/shared/model.ts";
import { isLocated, justSent, type OpenFire, picked, repeats } from "../../web/posts/shared/openFire.ts";
import { StopSheets } from "../../web/posts/shared/StopSheets.tsx";
import { standingStops } from "../../web/posts/shared/standing.ts";
import type { OpenStop } from "../../web/posts/shared/useStops.ts";
import { Opened } from "../../web/ui/opened.ts";
import { wordsNow } from "../../web/words/words.ts";
import { withTiming } from "../safety/types.ts";
import { FOUR } from "../spec/aircraft.ts";
import { bo, cy, ed, given, type Person, type Story } from "../spec/given.ts";

const type = withTiming(FOUR, { slip: 5 });
const COMMAND = "00000000-0000-4000-8000-0000000000aa";

/** A panel of one person, and what they sent from it. */
function panelOf(story: Story, who: Person, status?: Outgoing["status"]) {
  const action = { type: "send", kind: "fire", channel: "panel" } as const;
  const sent = status ? [{ id: COMMAND, session: "s", action, at: 0, status }] : [];
  const panel = {
    state: story.state,
    now: story.now,
    me: { id: who.id, name: who.name, mayHold: [] },
    device: who.device,
    post: null,
    fresh: true,
    sent,
    unrecorded: [],
    words: wordsNow(),
  } as unknown as Panel;
  return { panel };
}

const fired = (who: Person) => {
  const story = given({ type }).manned();
  const ref = story.does(who, { type: "send", kind: "fire" }).events[0]?.seq ?? 0;
  return { story, ref };
};

const numbers = [1, 2, 3, 4];
const sheetOf = (panel: Panel, open: OpenFire) =>
  renderToStaticMarkup(
    createElement(FireSheet, { panel, numbers, open, onSaid: () => {}, onClose: () => {} }),
  );

describe("the sheet of a fire", () => {
  it("[FIR-10] says that the fire was sent only once it is recorded", () => {
    const { story, ref } = fired(ed);
    const waiting = panelOf(story, ed, { is: "sending", tries: 1 }).panel;
    expect(fireView(waiting, justSent(COMMAND)).title).toBe("Fire: not yet heard. Number? Where?");
    const recorded = panelOf(story, ed, { is: "recorded", seq: ref }).panel;
    expect(fireView(recorded, justSent(COMMAND)).title).toBe("Fire sent. Number? Where?");
    expect(fireView(panelOf(story, cy).panel, picked(ref)).title).toBe("Fire. Number? Where?");
  });

  it("[FIR-10, FIR-11] adds number and place to its fire, also before the server was heard", () => {
    const { story, ref } = fired(ed);
    const located = { type: "send", kind: "fireAt", channel: "panel" };
    const heard = fireView(panelOf(story, ed, { is: "recorded", seq: ref }).panel, justSent(COMMAND));
    expect(heard.locate({ engine: 3 })).toEqual({ ...located, ref, engine: 3 });
    expect(heard.locate({ place: "nacelle" })).toEqual({ ...located, ref, place: "nacelle" });
    const offline = panelOf(given({ type }).manned(), ed, { is: "sending", tries: 0 }).panel;
    expect(fireView(offline, justSent(COMMAND)).locate({ engine: 2 })).toEqual({ ...located, engine: 2 });
  });

  it("[FIR-10] a second touch while the first is on its way or stands is no second fire", () => {
    const { story, ref } = fired(ed);
    const open = justSent(COMMAND);
    expect(repeats(panelOf(story, ed, { is: "sending", tries: 1 }).panel, open)).toBe(true);
    expect(repeats(panelOf(story, ed, { is: "recorded", seq: ref }).panel, open)).toBe(true);
    expect(repeats(panelOf(story, ed, { is: "recorded", seq: ref }).panel, picked(ref))).toBe(false);
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref });
    expect(repeats(panelOf(story, ed, { is: "recorded", seq: ref }).panel, open)).toBe(false);
  });

  it("[FIR-10] marks what anybody said, and is done once number and place are said here", () => {
    const { story, ref } = fired(bo);
    story.does(ed, { type: "send", kind: "fireAt", ref, engine: 2, place: "exhaust" });
    const markup = sheetOf(panelOf(story, cy).panel, { ...picked(ref), engine: 3 });
    expect(markup).toMatch(/aria-pressed="true">Exhaust/);
    for (const n of [2, 3]) expect(markup).toMatch(new RegExp(`"Engine number ${n}" aria-pressed="true"`));
    expect(markup).toMatch(/"Engine number 1" aria-pressed="false"/);
    expect(markup).not.toContain("Place not said");
    expect([
      isLocated({ engine: 3, place: null }),
      isLocated({ engine: null, place: "nacelle" }),
      isLocated({ engine: null, place: "groundEquipment" }),
      isLocated({ engine: 1, place: "nacelle" }),
    ]).toEqual([false, false, true, true]);
  });

  it("[STP-1] offers to take a slip back, to its sender alone, and only in time", () => {
    const { story, ref } = fired(ed);
    const own = panelOf(story, ed, { is: "recorded", seq: ref }).panel;
    const taken = { type: "send", kind: "disregard", ref, channel: "panel" };
    expect(fireView(own, justSent(COMMAND)).disregard).toEqual(taken);
    expect(sheetOf(own, justSent(COMMAND))).toContain("Sent by mistake");
    expect(fireView(panelOf(story, cy).panel, picked(ref)).disregard).toBeNull();
    const keys = (who: Person) =>
      standingStops(panelOf(story, who).panel, () => {}).flatMap((s) => s.keys.map((k) => k.word));
    expect(keys(ed)).toEqual(["Number? Where?", "Sent by mistake"]);
    expect(keys(cy)).toEqual(["Number? Where?"]);
    story.wait(5);
    expect(keys(ed)).toEqual(["Number? Where?"]);
  });

  it("[PAN-68] asks for the number and the place while one is not said, and then for a further place", () => {
    const { story, ref } = fired(ed);
    const key = () => standingStops(panelOf(story, cy).panel, () => {})[0]?.keys[0]?.word;
    const at = (where: object) =>
      story.does(ed, { type: "send", kind: "fireAt", channel: "panel", ref, ...where });
    at({ engine: 2 });
    expect(key()).toBe("Number? Where?");
    at({ place: "exhaust" });
    expect(key()).toBe("Another place?");
    const cart = fired(ed);
    const about = { ref: cart.ref, place: "groundEquipment" } as const;
    cart.story.does(ed, { type: "send", kind: "fireAt", channel: "panel", ...about });
    expect(standingStops(panelOf(cart.story, cy).panel, () => {})[0]?.keys[0]?.word).toBe("Another place?");
  });

  it("[STP-4] whoever owes no answer sees that a stop was a slip until every post has received it", () => {
    const { story, ref } = fired(bo);
    story.does(bo, { type: "send", kind: "disregard", ref });
    const seen = () => standingStops(panelOf(story, ed).panel, () => {}).map((s) => [s.kind, s.words]);
    expect(seen()).toMatchObject([["slip", expect.stringContaining("Fire: sent by mistake. Bo")]]);
    const slip = story.state.signals.find((s) => s.kind === "disregard")?.id ?? 0;
    for (const post of ["cockpit", "groundPower", "supervisor"] as const)
      story.answer(post, slip, "received");
    expect(seen()).toEqual([]);
  });
});

it("[CUT-7] the pick of a cut has cut all first and filled, then each engine", () => {
  const opened = new Opened<OpenStop>();
  opened.open({ is: "cut" });
  const none = () => {};
  const keys = { opened, cut: none, locate: none, actions: { hold: none, askCut: none, fire: none } };
  const { panel } = panelOf(given({ type }), cy);
  const markup = renderToStaticMarkup(createElement(StopSheets, { panel, keys, numbers }));
  expect(markup).toMatch(/data-tone="danger">Cut all engines</);
  const order = ["Cut all engines", "Engine number 1", "Engine number 4", "Back"].map((w) =>
    markup.indexOf(w),
  );
  expect(order).toEqual([...order].sort((a, b) => a - b));
  expect(order[0]).toBeGreaterThan(0);
});
