import { describe, expect, it } from "vitest";
import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { postHeld } from "../../shared/posts/postHeld.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { ada, bo, CREW, di, ed, fay, given, onDevice } from "./given.ts";

const gus = { id: "gus", name: "Gus", device: "gus-tablet", mayHold: POSTS };

describe("posts", () => {
  it.each(POSTS)("[PST-1] %s is claimed by a qualified person only", (post) => {
    const story = given();
    expect(story.does(ed, { type: "claimPost", post }).refusal?.reason).toBe("notQualified");
    expect(story.does(CREW[post], { type: "claimPost", post }).refusal).toBeUndefined();
    expect(story.state.posts[post]?.name).toBe(CREW[post].name);
  });

  it.each(POSTS)("[PST-2] %s has one holder", (post) => {
    const story = given().manned();
    expect(story.does(fay, { type: "claimPost", post }).refusal).toMatchObject({
      reason: "postHeld",
      found: CREW[post].name,
    });
    expect(story.state.posts[post]?.id).toBe(CREW[post].id);
  });

  it("[PST-3] one person holds one post, whatever the device", () => {
    const story = given();
    story.does(fay, { type: "claimPost", post: "fireGuard" });
    const other = onDevice(fay, "fays-second");
    expect(story.does(other, { type: "claimPost", post: "cockpit" }).refusal).toMatchObject({
      reason: "alreadyHoldsPost",
      found: "fireGuard",
    });
  });

  it("[PST-12] a person who holds a post in another open session takes none here, by claim or by hand-over", () => {
    const story = given().manned();
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    for (const other of POSTS) {
      story.postElsewhere = { code: "K7M2", post: other };
      expect(story.does(fay, { type: "claimPost", post: "cockpit" }).refusal).toEqual({
        reason: "postElsewhere",
        found: "K7M2",
      });
    }
    story.postElsewhere = undefined;
    story.say("fireGuard", { type: "offerPost", post: "fireGuard", to: "fay" });
    story.postElsewhere = { code: "K7M2", post: "supervisor" };
    expect(story.does(fay, { type: "acceptPost", post: "fireGuard" }).refusal?.reason).toBe("postElsewhere");
    expect(story.state.posts.fireGuard?.id).toBe("bo");
  });

  it("[PST-12] the supervisor of another session may supervise here too; the guard of another may not", () => {
    const story = given();
    story.postElsewhere = { code: "K7M2", post: "fireGuard" };
    expect(story.does(fay, { type: "claimPost", post: "supervisor" }).refusal?.reason).toBe("postElsewhere");
    story.postElsewhere = { code: "K7M2", post: "supervisor" };
    expect(story.does(fay, { type: "claimPost", post: "supervisor" }).refusal).toBeUndefined();
  });

  it("[PST-12] moving a held post to another device takes no new post", () => {
    const story = given().manned();
    story.postElsewhere = { code: "K7M2", post: "supervisor" };
    expect(
      story.does(onDevice(bo, "bo-second"), { type: "claimPost", post: "fireGuard" }).refusal,
    ).toBeUndefined();
  });

  it("[PST-13] a supervisor of several aircraft clears only by saying that they stand at this one", () => {
    const story = given().upTo("starting").requested(3).guarded(3);
    const clear = (standsAt?: string) =>
      story.copy().send("supervisor", "clearToStart", { engine: 3, ...(standsAt ? { standsAt } : {}) });
    expect(clear().refusal).toBeUndefined();
    story.supervises("CH-OTH", "CH-ZED");
    for (const wrong of [undefined, "CH-OTH", "CH-NOT"])
      expect(clear(wrong).refusal).toEqual({ reason: "notStandingHere", engine: 3, found: "CH-TST" });
    const given_ = clear("CH-TST");
    expect(given_.refusal).toBeUndefined();
    expect(given_.events[0]?.fact).toMatchObject({ kind: "clearToStart", standsAt: "CH-TST" });
    story.supervises();
    expect(story.state.supervisesAlso).toBeUndefined();
    expect(clear().refusal).toBeUndefined();
  });

  it("[PST-13] the clearance asks for it then, marks none of the aircraft, and asks nothing more of one alone", () => {
    const story = given().upTo("starting").requested(3).guarded(3);
    const clear = () =>
      askedOf(story.state, "supervisor", story.now)
        .flatMap((a) => a.choices)
        .find((c) => c.word === "clearToStart");
    expect(clear()?.need).toBeNull();
    story.supervises("CH-AAA", "CH-ZED");
    const asked = clear();
    expect(asked?.need).toEqual({ is: "standsAt", among: ["CH-AAA", "CH-TST", "CH-ZED"] });
    expect(asked && fill(asked, {})).toBeNull();
    expect(asked && fill(asked, { standsAt: "CH-ZED" })).toMatchObject({ standsAt: "CH-ZED" });
  });

  it("[PST-13] ends with the supervisor: the next one may supervise no other aircraft", () => {
    const story = given().manned();
    story.supervises("CH-OTH");
    story.does(onDevice(di, "di-second"), { type: "claimPost", post: "supervisor" });
    expect(story.state.supervisesAlso).toEqual(["CH-OTH"]);
    story.does(onDevice(di, "di-second"), { type: "leavePost", post: "supervisor" });
    expect(story.state.supervisesAlso).toBeUndefined();
    expect(story.supervises().events).toEqual([]);
  });

  it("[PST-4] a hand-over needs offer and acceptance by the person named", () => {
    const story = given().manned();
    expect(story.does(bo, { type: "offerPost", post: "cockpit", to: "fay" }).refusal?.reason).toBe(
      "wrongPost",
    );
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: "fay" });
    expect(story.state.posts.cockpit?.id).toBe("ada");
    expect(story.does(gus, { type: "acceptPost", post: "cockpit" }).refusal?.reason).toBe("notOffered");
    expect(story.does(fay, { type: "acceptPost", post: "cockpit" }).refusal).toBeUndefined();
    expect(story.state.posts.cockpit?.id).toBe("fay");
    expect(story.does(fay, { type: "acceptPost", post: "cockpit" }).refusal?.reason).toBe("notOffered");
  });

  it("[PST-4] the person named must be qualified and hold no other post", () => {
    const story = given().manned();
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: "ed" });
    expect(story.does(ed, { type: "acceptPost", post: "cockpit" }).refusal?.reason).toBe("notQualified");
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    story.does(gus, { type: "claimPost", post: "fireGuard" });
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: "gus" });
    expect(story.does(gus, { type: "acceptPost", post: "cockpit" }).refusal?.reason).toBe("alreadyHoldsPost");
  });

  it("[PST-5, PST-11] a person who moves holds the post on the new device and observes on the old one", () => {
    const story = given().upTo("starting");
    const moved = onDevice(ada, "new-tablet");
    story.does(moved, { type: "claimPost", post: "cockpit" });
    expect(story.state.posts.cockpit).toMatchObject({ device: "new-tablet", briefed: true });
    expect(postHeld(story.state, ada)).toBeNull();
    expect(story.send("cockpit", "readyToStart", { engine: 3 }).refusal?.reason).toBe("wrongPost");
    expect(story.does(moved, { type: "send", kind: "readyToStart", engine: 3 }).refusal).toBeUndefined();
  });

  it("[PST-6] who takes a post confirms the brief anew", () => {
    const story = given().upTo("starting");
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: "fay" });
    story.does(fay, { type: "acceptPost", post: "cockpit" });
    expect(story.state.posts.cockpit?.briefed).toBe(false);
    expect(story.does(fay, { type: "confirmBrief" }).refusal).toBeUndefined();
    expect(story.does(fay, { type: "confirmBrief" }).refusal?.reason).toBe("alreadyDone");
  });

  it("[PST-7] leaving ends an offer", () => {
    const story = given().manned();
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: "fay" });
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    expect(story.state.posts.cockpit).toBeNull();
    expect(story.does(fay, { type: "acceptPost", post: "cockpit" }).refusal?.reason).toBe("notOffered");
  });

  it("[PST-7] nobody leaves a post for another", () => {
    const story = given().manned();
    expect(story.say("supervisor", { type: "leavePost", post: "cockpit" }).refusal?.reason).toBe("wrongPost");
  });

  it.each(["cockpit", "fireGuard", "groundPower"] as const)(
    "[PST-8] the supervisor alone vacates %s",
    (post) => {
      const story = given().manned();
      const by = post === "cockpit" ? "fireGuard" : "cockpit";
      expect(story.say(by, { type: "vacatePost", post, reason: "gone" }).refusal?.reason).toBe("wrongPost");
      expect(story.does(fay, { type: "vacatePost", post, reason: "gone" }).refusal?.reason).toBe("wrongPost");
      expect(story.say("supervisor", { type: "vacatePost", post, reason: "gone" }).refusal).toBeUndefined();
      expect(story.told("postLeft")).toEqual([{ type: "postLeft", post, reason: "gone" }]);
    },
  );

  it("[PST-8] the supervisor's post is vacated by anyone qualified to hold it", () => {
    const story = given().manned();
    expect(
      story.say("cockpit", { type: "vacatePost", post: "supervisor", reason: "gone" }).refusal?.reason,
    ).toBe("wrongPost");
    expect(
      story.does(fay, { type: "vacatePost", post: "supervisor", reason: "gone" }).refusal,
    ).toBeUndefined();
    expect(story.does(fay, { type: "claimPost", post: "supervisor" }).refusal).toBeUndefined();
  });

  const changes: [string, Post][] = POSTS.map((p) => [p, p]);
  it.each(changes)("[PST-9, CLR-7] a change of %s voids the clearance", (_, post) => {
    const story = given().upTo("starting");
    story.readBack(3);
    story.say(post, { type: "leavePost", post });
    expect(story.told("clearanceVoid")).toMatchObject([{ engine: 3, cause: "epoch" }]);
    story.say(post, { type: "claimPost", post });
    expect(story.life(3)).toBe("waiting");
  });

  it("[PST-9, CLR-7] a move to another device voids the clearance", () => {
    const story = given().upTo("starting");
    story.readBack(3);
    story.does(onDevice(di, "other"), { type: "claimPost", post: "supervisor" });
    expect(story.told("clearanceVoid")).toMatchObject([{ cause: "epoch" }]);
  });

  it("[PST-10] a new guard has no reports; a guard who moved to another device keeps them", () => {
    const story = given().upTo("starting").requested(3).guarded(3);
    story.does(onDevice(bo, "second"), { type: "claimPost", post: "fireGuard" });
    expect(story.state.guard?.engine).toBe(3);
    expect(story.state.arcs[3]?.clear).toBe(true);
    story.does(onDevice(bo, "second"), { type: "offerPost", post: "fireGuard", to: "fay" });
    story.does(fay, { type: "acceptPost", post: "fireGuard" });
    expect(story.state.guard).toBeNull();
    expect(story.state.arcs).toEqual({});
  });

  it("[PST-10] the reports of a guard who leaves the post end", () => {
    const story = given().upTo("starting").guarded(3);
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    expect(story.state.guard).toBeNull();
    expect(story.state.arcs).toEqual({});
  });
});
