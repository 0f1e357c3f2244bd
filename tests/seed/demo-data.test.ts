import { describe, expect, it } from "vitest";
import { cast } from "../../seed/crew/people.ts";
import { demo } from "../../seed/demo-data.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";

const distinct = (list: readonly string[]) => expect(new Set(list).size).toBe(list.length);

describe("the demo's people, aircraft and places", () => {
  it("[SED-5] are each themselves: no id, handle, name, PIN, registration or place twice", () => {
    distinct(demo.people.map((p) => p.id));
    distinct(demo.people.map((p) => p.handle));
    distinct(demo.people.map((p) => p.name));
    distinct(demo.people.map((p) => p.pin));
    distinct(demo.aircraft.map((a) => a.id));
    distinct(demo.places);
    distinct(demo.types.map((t) => t.id));
  });

  it("[SED-5] can be taken by a server: plain ids, PINs of six figures, places within their length", () => {
    for (const p of demo.people) {
      expect(idSchema.safeParse(p.id).success && idSchema.safeParse(p.handle).success).toBe(true);
      expect(p.handle).toBe(p.handle.toLowerCase());
      expect(p.pin).toMatch(/^\d{6}$/);
    }
    for (const a of demo.aircraft) expect(idSchema.safeParse(a.id).success).toBe(true);
    for (const place of demo.places) expect(line(80).safeParse(place).success).toBe(true);
  });

  it("[SED-5] are invented: registrations under Q, which is no state's; each aircraft of a type that is there", () => {
    const types = demo.types.map((t) => t.id);
    for (const a of demo.aircraft) {
      expect(a.id).toMatch(/^Q[A-Z]-[A-Z]{3}$/);
      expect(types).toContain(a.typeId);
    }
    expect(new Set(demo.aircraft.map((a) => a.typeId))).toEqual(new Set(types));
  });
});

describe("who makes up a crew", () => {
  it("[SED-11] four different people, each qualified, and for every post somebody is left to sign in as", () => {
    const crew = cast(POSTS, demo.people, new Set());
    const handles = [...crew.values()].map((s) => s?.handle ?? "");
    expect(handles).toHaveLength(4);
    distinct(handles);
    for (const post of POSTS) {
      expect(crew.get(post)?.mayHold).toContain(post);
      expect(demo.people.some((p) => p.mayHold.includes(post) && !handles.includes(p.handle))).toBe(true);
    }
  });

  it("[SED-11] skips people who are taken, and says when nobody is left", () => {
    const usual = cast(["cockpit"], demo.people, new Set()).get("cockpit")?.handle ?? "";
    const other = cast(["cockpit"], demo.people, new Set([usual])).get("cockpit");
    expect(other?.handle).not.toBe(usual);
    const everyone = new Set(demo.people.map((p) => p.handle));
    expect(cast(["cockpit"], demo.people, everyone).get("cockpit")).toBeNull();
  });
});
