import { rowOf } from "../../server/sessions/row.ts";
import type { EventStore } from "../../server/store/events.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import { given, type Story, sha256 } from "../spec/given.ts";

/** Puts a session of three sealed events, code K7, into a store. */
export function storeChained(store: EventStore): Promise<void> {
  return storeStory(store, given().manned(["cockpit", "supervisor"]), "K7");
}

/** Puts the sealed events of a story into a store, as a session with this code. */
export async function storeStory(
  store: EventStore,
  story: Pick<Story, "state" | "log">,
  code: string,
): Promise<void> {
  let head = genesis(story.state.id, sha256);
  const events = story.log.map((event) => {
    const sealed = seal(event, head, sha256);
    head = sealed.hash;
    return { ...sealed, at: event.at, command: event.command, type: event.fact.type };
  });
  const row = rowOf({ code, planCommand: `plan-${code}`, createdAt: 1 }, story.state, head);
  await store.append({ expected: 0, events, row });
}

/**
 * Changes that an attacker with access to the database can make, and the code and event number at which each is found.
 */
export const TAMPERINGS = [
  [
    "a word changed",
    `UPDATE "Event" SET "body" = replace("body", 'cockpit', 'fireGuard') WHERE "seq" = 2`,
    "K7 from event 2",
  ],
  ["an event taken out", `DELETE FROM "Event" WHERE "seq" = 2`, "K7 from event 2"],
  ["the last event cut off", `DELETE FROM "Event" WHERE "seq" = 3`, "K7 from event 3"],
  ["every event taken out", `DELETE FROM "Event"`, "K7 from event 1"],
  ["a row that names another head", `UPDATE "Session" SET "headHash" = 'x'`, "K7 from event 4"],
  ["a row taken out", `DELETE FROM "Session"`, "the lost session test-session from event 1"],
] as const;
