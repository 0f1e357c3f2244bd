import { SCRIPTS } from "../../server/rehearsals/scripts.ts";
import type { DeadLetter } from "../../server/webhooks/progress.ts";
import type { Due } from "../../shared/dues/dues.ts";
import { HISTORY_FIGURE_IDS } from "../../shared/history/figures.ts";
import { bareAircraft } from "../../shared/house/aircraft.ts";
import { firstEntry, type Registered, type RegisterKind } from "../../shared/house/register.ts";
import { FOUR } from "../spec/aircraft.ts";
import { CHOCKS, FIRE, keptAs } from "../spec/equipped.ts";
import { append } from "../store/contract.ts";
import { START } from "./hand-clock.ts";
import { APPROVED, planned, signIn, type TestServer } from "./test-server.ts";

/** A list that comes a page at a time: who reads it, how the nth row is added, and what tells a row from the others. */
export interface Paged {
  as: "di" | "fay";
  add: (nth: number) => Promise<unknown>;
  /** Returns the rows of an answer by what identifies each. */
  rows?: (body: never) => string[];
}

/** Returns a name for the nth row that stands before some of the earlier ones and after others. */
export const scattered = (nth: number): string => `x${((nth * 37) % 101).toString().padStart(3, "0")}`;

export const idsIn = (body: { id: string }[]) => body.map(({ id }) => id);
const BODY = { ...bareAircraft({ id: "none", name: "None", typeId: FOUR.id }), id: "none" };

/** Returns every list of the server that has pages, by its path. */
export async function pagedLists(
  test: TestServer,
  letters: DeadLetter[],
): Promise<Readonly<Record<string, Paged>>> {
  const { directory, histories, currencies, trainings, dues } = test.services;
  const fay = await signIn(test.app, "fay");
  const enter = <K extends RegisterKind>(kind: K, body: Registered<K>) =>
    directory.register.append([firstEntry(kind, body, "di", START)]);
  const pinHash = "not a hash";
  const person = (nth: number) => ({
    ...{ id: scattered(nth), handle: scattered(nth), name: `Name ${nth % 3}`, pinHash },
    ...{ mayHold: ["cockpit" as const], active: true, createdAt: START, demo: false },
  });
  const account = (nth: number) => ((nth * 37) % 101).toString(16).padStart(16, "0");
  const [script] = SCRIPTS;
  if (!script) throw new Error("the program has no script");
  // What these work out has tests of its own: here its rows are given.
  const given = {
    notes: [] as object[],
    lapses: [] as object[],
    own: [] as object[],
    trained: [] as object[],
    due: [] as object[],
  };
  histories.notesFor = async () => given.notes as never;
  currencies.lapses = async () => [...given.lapses, { person: { id: "fay" }, lapses: given.own }] as never;
  trainings.of = async () => ({ lines: given.trained as never, more: false });
  dues.list = async () => given.due as Due[];
  const lapse = (nth: number) => ({
    ...{ post: nth % 2 ? "cockpit" : "fireGuard", kind: scattered(nth), name: "Fire training" },
    ...{ until: null, is: "over", bars: true },
  });
  const training: Paged = {
    as: "fay",
    add: async (nth) =>
      given.trained.push({
        ...{
          session: scattered(nth),
          script: "s",
          title: null,
          takenBack: false,
          aircraft: "CH-TST",
          typeName: "Four",
        },
        ...{ post: "cockpit", at: START + (nth % 3), seconds: 1, finishedAt: null, watchedBy: [] },
      }),
    rows: ({ lines }: { lines: { session: string }[] }) => lines.map(({ session }) => session),
  };
  const everybody: Paged = { as: "di", add: (nth) => directory.addPeople([person(nth)]) };
  const defect = (nth: number) =>
    test.app.inject({
      ...{ method: "POST", url: "/api/aircraft/CH-TST/reports", headers: { authorization: `Bearer ${fay}` } },
      payload: {
        commandId: `50000000-0000-4000-8000-${String(nth).padStart(12, "0")}`,
        action: { type: "writeDefect", words: `Worn ${nth}`, barsStart: false },
      },
    });
  return {
    "/api/sessions": { as: "fay", add: () => planned(test.app, fay) },
    "/api/people": everybody,
    "/api/people/everybody": everybody,
    "/api/people/lapses": {
      as: "di",
      add: async (nth) => given.lapses.push({ person: { id: scattered(nth) }, lapses: [] }),
      rows: (body: { person: string }[]) => body.map(({ person: who }) => who),
    },
    "/api/people/dates": {
      as: "di",
      add: async (nth) => {
        await directory.addPeople([
          { ...person(nth), id: `d${scattered(nth)}`, handle: `d${scattered(nth)}` },
        ]);
        await directory.currencies.setDates(`d${scattered(nth)}`, { fire: "2027-01-01" });
      },
      rows: (body) => Object.keys(body),
    },
    "/api/people/{id}/training": training,
    "/api/me/training": training,
    "/api/me/lapses": {
      as: "fay",
      add: async (nth) => given.own.push(lapse(nth)),
      rows: (body: { post: string; kind: string }[]) => body.map(({ post, kind }) => `${post} ${kind}`),
    },
    "/api/me/sign-ins": { as: "fay", add: (nth) => signIn(test.app, "fay", `tablet-${nth}`) },
    "/api/me/passkeys": {
      as: "fay",
      add: (nth) =>
        directory.passkeys.add({
          ...{ id: scattered(nth), personId: "fay", publicKey: "", counter: 0, deviceName: "Tablet" },
          ...{ createdAt: START + (nth % 2), usedAt: null },
        }),
    },
    "/api/devices": {
      as: "di",
      add: (nth) =>
        directory.devices.add({
          ...{ id: scattered(nth), name: "Tablet", publicKey: "{}", thumbprint: `t${nth}`, enrolledBy: "di" },
          ...{ enrolledAt: START + (nth % 2), revokedBy: null, revokedAt: null },
        }),
    },
    "/api/aircraft": { as: "fay", add: (nth) => enter("aircraft", { ...BODY, id: scattered(nth) }) },
    "/api/standing": {
      as: "fay",
      add: (nth) => enter("aircraft", { ...BODY, id: `s${scattered(nth)}` }),
      rows: (body: { aircraft: string }[]) => body.map(({ aircraft }) => aircraft),
    },
    "/api/aircraft/{id}/defects": { as: "fay", add: defect },
    "/api/aircraft/{id}/notes": {
      as: "fay",
      add: async (nth) =>
        given.notes.push({
          ...{
            aircraft: "CH-TST",
            n: 1 + (nth % 4),
            serial: "S",
            figure: HISTORY_FIGURE_IDS[nth % HISTORY_FIGURE_IDS.length],
            side: "high",
            unit: "s",
          },
          ...{ baseline: { count: 9, from: 0, to: 1 }, found: { is: "start", value: nth, limit: 1 } },
          ...{ at: nth, session: scattered(nth) },
        }),
      rows: (body: { session: string }[]) => body.map(({ session }) => session),
    },
    "/api/equipment": {
      as: "fay",
      add: (nth) => enter("equipment", keptAs({ ...CHOCKS, id: scattered(nth).toUpperCase() })),
      rows: (body: { body: { id: string } }[]) => idsIn(body.map((row) => row.body)),
    },
    "/api/types": {
      as: "fay",
      add: (nth) =>
        directory.addTypes([{ ...APPROVED, id: `t${nth % 2}`, version: 1 + ((nth * 7) % 23) }], START),
      rows: (body: { id: string; version: number }[]) => body.map(({ id, version }) => `${id} ${version}`),
    },
    "/api/begun-types": {
      as: "fay",
      add: (nth) => enter("begunType", { id: scattered(nth), name: "New", entered: {}, givenUp: false }),
    },
    "/api/currencies": { as: "fay", add: (nth) => enter("currency", { ...FIRE, id: scattered(nth) }) },
    "/api/dues": {
      as: "fay",
      add: async (nth) =>
        given.due.push({
          of: "blades",
          key: scattered(nth),
          until: null,
          is: "soon",
          aircraft: "A",
          engines: [1],
        }),
      rows: (body: { key: string }[]) => body.map(({ key }) => key),
    },
    "/api/inspections": {
      as: "fay",
      add: (nth) =>
        enter("inspection", {
          ...{ id: scattered(nth), aircraft: "CH-TST", engine: null, name: "Look", source: "Book" },
          ...{ every: { by: "days", days: 10, ahead: 1 }, last: null, retired: false },
        }),
    },
    "/api/service-accounts": {
      as: "di",
      add: (nth) =>
        enter("serviceAccount", {
          ...{ id: account(nth), name: "Wall", scopes: [{ is: "readLive" }], until: "2027-01-01" },
          ...{ secretHash: "x", revoked: false },
        }),
    },
    "/api/rehearsals": {
      as: "fay",
      add: (nth) =>
        test.services.store.append(
          append(`rehearsal-${scattered(nth)}`, 0, 1, { createdAt: START + (nth % 2) }),
        ),
    },
    "/api/rehearsals/scripts": {
      as: "fay",
      add: (nth) =>
        enter("script", { id: scattered(nth), script: { ...script, id: scattered(nth) }, retired: false }),
    },
    "/api/rehearsals/house-scripts": {
      as: "fay",
      add: (nth) =>
        enter("script", {
          id: `h${scattered(nth)}`,
          script: { ...script, id: `h${scattered(nth)}` },
          retired: false,
        }),
      rows: (body: { body: { id: string } }[]) => idsIn(body.map((row) => row.body)),
    },
    "/api/webhooks/given-up": {
      as: "di",
      add: async (nth) =>
        letters.push({
          at: new Date(START + (nth % 3)).toISOString(),
          target: "wall",
          id: `${scattered(nth)}.1`,
          kind: "stop.given",
          why: "no",
        }),
    },
  };
}
