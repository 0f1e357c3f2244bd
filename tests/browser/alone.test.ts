import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { SCRIPTS } from "../../server/rehearsals/scripts.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { debriefOf } from "../../shared/rehearsal/debrief.ts";
import { LonePerson, movable } from "./lonePerson.ts";
import { LONG_FORM } from "./longForm.ts";
import { openBrowser, Seat } from "./seat.ts";
import { TestServer } from "./server.ts";

/** The twin asks for the fewest things twice. */
const AIRCRAFT = { aircraft: "QX-PEN", type: "penhale-twin" };
const SEED = 7;
/** A fault that began with the last engine is answered within this server time, milliseconds. */
const ANSWERED_MS = 5_000;

/** The post that is played through a script in the short form: each post once. */
const ONCE: Readonly<Record<string, Post>> = {
  readTheGauges: "cockpit",
  fireDay: "fireGuard",
  people: "supervisor",
  worstDay: "groundPower",
};
const CASES = SCRIPTS.flatMap(({ id }) =>
  POSTS.filter((post) => LONG_FORM || ONCE[id] === post).map((post) => ({ script: id, post })),
);

// A busy machine touches more slowly than a person. Twice the time keeps the limits that a fault must pass near.
const server = new TestServer({ patience: 2, unhurried: true });
let browser: Browser;
let seat: Seat;

beforeAll(async () => {
  await server.start();
  browser = await openBrowser();
  seat = await Seat.open(browser, server.url, demo.people[0]?.handle ?? "");
  await movable(seat.page);
  await seat.page.reload();
});
afterAll(async () => {
  await browser?.close();
  await server.end();
});

async function ask<T>(method: "GET" | "DELETE", path: string): Promise<T | null> {
  const headers = { authorization: `Bearer ${await seat.token()}` };
  const reply = await fetch(`${server.url}/api${path}`, { method, headers });
  return reply.status === 200 ? ((await reply.json()) as T) : null;
}

it.each(CASES)(
  "[RHS-66] $post: one person alone plays $script at the panel, and the debrief says that each fault was answered",
  async ({ script, post }) => {
    const from = LONG_FORM ? "plan" : "starting";
    const begun = { ...AIRCRAFT, script, seed: SEED, post, from } as const;
    const person = await LonePerson.begin(seat, server, begun);
    await person.playTo("Warm-up", ANSWERED_MS);
    // Its starter ends it, unless it has ended by itself.
    await ask("DELETE", `/rehearsals/${person.id}`);
    await seat.turnTo(`/session/${person.id}/record`);
    await seat.page.locator(".debrief li").first().waitFor();
    const told = await ask<{ events: SessionEvent[] }>(
      "GET",
      `/sessions/${person.id}/events?since=0&limit=500`,
    );
    const events = told?.events ?? [];
    const lines = debriefOf(events);
    const shown = seat.page.locator(".debrief li");
    await expect.poll(() => shown.count()).toBe(lines.length);
    expect(await seat.page.locator(".debrief li[data-bad]").count()).toBe(
      lines.filter((l) => !l.good).length,
    );
    expect(lines.filter(({ is }) => is === "notAnswered" || is === "unnecessary")).toEqual([]);
    expect(lines).toContainEqual(expect.objectContaining({ is: "touches", post }));
    const planner = events[0]?.actor;
    const refused = events.filter(({ actor, fact }) => {
      const mine = actor.kind === "person" && planner?.kind === "person" && actor.id === planner.id;
      // A partner may mark a step of a drill between the person's look and their touch.
      return mine && fact.type === "refused" && fact.refusal.reason !== "alreadyDone";
    });
    expect(refused.map(({ fact }) => fact)).toEqual([]);
    expect(person.touches).toBeGreaterThan(0);
    // The browser notes each look at the world that is refused: while the panel is cut off, and once it is over.
    expect(seat.complaints.filter((said) => !/status of (404|503)/.test(said))).toEqual([]);
  },
);
