import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Directory, PersonRecord } from "../../server/store/directory.ts";
import type { SignInRecord } from "../../server/store/sign-in.ts";
import { bareAircraft } from "../../shared/house/aircraft.ts";
import { ALL_BAR } from "../../shared/house/house.ts";
import { firstEntry } from "../../shared/house/register.ts";
import { FOUR } from "../spec/aircraft.ts";
import { BOTTLE, CART, CHOCKS, keptAs } from "../spec/equipped.ts";

const person = (id: string, over: Partial<PersonRecord> = {}): PersonRecord => ({
  id,
  name: `Name of ${id}`,
  handle: `handle-${id}`,
  pinHash: "hash",
  mayHold: ["cockpit", "supervisor"],
  active: true,
  createdAt: 1_780_000_000_000,
  demo: false,
  ...over,
});

const signIn = (id: string, personId: string, over: Partial<SignInRecord> = {}): SignInRecord => ({
  id,
  personId,
  deviceId: "d1",
  deviceName: "Tablet 1",
  tokenHash: `hash-of-${id}`,
  thumbprint: null,
  createdAt: 100,
  expiresAt: 200,
  usedAt: 100,
  revokedAt: null,
  ...over,
});

/** The store keeps a seal as it is given. */
const SEAL = { note: "a signed note", key: "a public key" };
const SECOND = { ...FOUR, version: 2, approvedBy: "Chief" };

/** Tests what every directory must do. Each kind of directory runs it. */
export function directoryContract(
  name: string,
  open: () => Promise<{ directory: Directory; done(): Promise<void> }>,
): void {
  describe(name, () => {
    let directory: Directory;
    let done: () => Promise<void>;

    beforeEach(async () => {
      ({ directory, done } = await open());
    });
    afterEach(() => done());

    it("[STO-9] gives back people as they were added, by id and by handle", async () => {
      const bo = person("bo", { mayHold: [], active: false, demo: true });
      await directory.addPeople([person("ada"), bo]);
      expect(await directory.people()).toEqual([person("ada"), bo]);
      expect(await directory.person("bo")).toEqual(bo);
      expect(await directory.personByHandle("handle-ada")).toEqual(person("ada"));
      expect([await directory.person("x"), await directory.personByHandle("x")]).toEqual([null, null]);
    });

    it("[STO-9] lets nobody have a handle that is taken", async () => {
      await directory.addPeople([person("ada")]);
      await expect(directory.addPeople([person("eve", { handle: "handle-ada" })])).rejects.toThrow();
    });

    it("[STO-9] finds a sign-in with its person by the token's hash, also once revoked", async () => {
      await directory.addPeople([person("ada")]);
      await directory.addSignIn(signIn("s1", "ada"));
      expect(await directory.signInByToken("hash-of-s1")).toEqual({
        signIn: signIn("s1", "ada"),
        person: person("ada"),
      });
      await directory.revokeSignIn("s1", 150);
      await directory.revokeSignIn("s1", 160);
      expect((await directory.signInByToken("hash-of-s1"))?.signIn.revokedAt).toBe(150);
      expect(await directory.signInByToken("other")).toBeNull();
    });

    it("[STO-9] tells which sign-ins stand: not revoked, not expired, of a person still active", async () => {
      await directory.addPeople([person("ada"), person("bo", { active: false })]);
      await directory.addSignIn(signIn("good", "ada"));
      await directory.addSignIn(signIn("over", "ada", { expiresAt: 150 }));
      await directory.addSignIn(signIn("ended", "ada", { revokedAt: 120 }));
      await directory.addSignIn(signIn("left", "bo"));
      const ids = ["good", "over", "ended", "left", "unknown"];
      expect(await directory.standing(ids, 150, 99)).toEqual(new Set(["good"]));
      expect(await directory.standing(ids, 149, 99)).toEqual(new Set(["good", "over"]));
      expect(await directory.standing(ids, 149, 100)).toEqual(new Set());
      await directory.usedSignIns(["over", "unknown"], 120);
      expect(await directory.standing(ids, 149, 100)).toEqual(new Set(["over"]));
      await directory.setActive("ada", false);
      expect(await directory.standing(ids, 149, 99)).toEqual(new Set());
    });

    it("[STO-9] gives one person another PIN", async () => {
      await directory.addPeople([person("ada"), person("bo")]);
      await directory.setPin("ada", "other");
      await directory.setPin("nobody", "other");
      expect(await directory.people()).toEqual([person("ada", { pinHash: "other" }), person("bo")]);
    });

    it("[STO-9] revokes all sign-ins of a person or on a device, and tells which stood", async () => {
      await directory.addPeople([person("ada"), person("bo")]);
      await directory.addSignIn(signIn("a1", "ada"));
      await directory.addSignIn(signIn("a2", "ada", { deviceId: "d2", revokedAt: 110 }));
      await directory.addSignIn(signIn("b1", "bo", { deviceId: "d2", thumbprint: "t" }));
      expect(await directory.revokeSignIns({ personId: "ada" }, 120)).toEqual(["a1"]);
      expect(await directory.revokeSignIns({ deviceId: "d2" }, 130)).toEqual(["b1"]);
      const revoked = async (id: string) => (await directory.signInByToken(`hash-of-${id}`))?.signIn;
      expect((await revoked("a1"))?.revokedAt).toBe(120);
      expect((await revoked("a2"))?.revokedAt).toBe(110);
      expect(await revoked("b1")).toMatchObject({ revokedAt: 130, thumbprint: "t" });
    });

    it("[STO-9] keeps devices, no two with one key, and the first revocation", async () => {
      const device = (id: string, enrolledAt: number) => ({
        id,
        name: `Name of ${id}`,
        publicKey: "{}",
        thumbprint: `t-${id}`,
        enrolledBy: "ada",
        enrolledAt,
        revokedBy: null,
        revokedAt: null,
      });
      await directory.devices.add(device("d1", 5));
      await directory.devices.add(device("d2", 6));
      await expect(directory.devices.add({ ...device("d3", 7), thumbprint: "t-d1" })).rejects.toThrow();
      await directory.devices.revoke("d1", "bo", 9);
      await directory.devices.revoke("d1", "cy", 10);
      const revoked = { ...device("d1", 5), revokedBy: "bo", revokedAt: 9 };
      expect(await directory.devices.all()).toEqual([device("d2", 6), revoked]);
      expect(await directory.devices.one("d2")).toEqual(device("d2", 6));
      expect(await directory.devices.byThumbprint("t-d1")).toEqual(revoked);
      expect([await directory.devices.one("x"), await directory.devices.byThumbprint("x")]).toEqual([
        null,
        null,
      ]);
    });

    it("[STO-9] takes a code once, before its end, also when two bring it at once", async () => {
      const code = { codeHash: "h", deviceName: "Tablet", issuedBy: "ada", expiresAt: 100 };
      await directory.devices.addCode(code);
      await directory.devices.addCode({ ...code, codeHash: "late" });
      const taken = await Promise.all([1, 2, 3].map(() => directory.devices.takeCode("h", 99)));
      expect(taken.filter((t) => t !== null)).toEqual([code]);
      expect(await directory.devices.takeCode("late", 100)).toBeNull();
      await directory.devices.forgetCodes(101);
      expect(await directory.devices.takeCode("late", 50)).toBeNull();
    });

    it("[STO-9] takes what is good for one use once, also when two bring it at once, and forgets it after its time", async () => {
      const taken = await Promise.all([1, 2, 3].map(() => directory.takeOnce("k", 100)));
      expect(taken.filter(Boolean)).toEqual([true]);
      await directory.forgetTaken(100);
      expect([await directory.takeOnce("k", 100), await directory.takeOnce("l", 100)]).toEqual([false, true]);
      await directory.forgetTaken(101);
      expect(await directory.takeOnce("k", 200)).toBe(true);
    });

    it("[STO-9] forgets sign-ins by their ids, however many, and no other", async () => {
      await directory.addPeople([person("ada")]);
      const ids = Array.from({ length: 205 }, (_, i) => `s${i}`);
      for (const id of ids) await directory.addSignIn(signIn(id, "ada"));
      await directory.personal.forgetSignIns([...ids.slice(1), "unknown"]);
      expect((await directory.personal.signIns("ada")).map((s) => s.id)).toEqual(["s0"]);
    });

    it("[STO-9] keeps passkeys, no two alike, and a use of each only by a count that rises", async () => {
      const { passkeys } = directory;
      const passkey = (id: string, personId: string, createdAt: number) => ({
        ...{ id, personId, createdAt, publicKey: "k", counter: 0, deviceName: "T1", usedAt: null },
      });
      await passkeys.add(passkey("a", "ada", 2));
      await passkeys.add(passkey("b", "ada", 1));
      await passkeys.add(passkey("c", "bo", 3));
      await expect(passkeys.add(passkey("a", "bo", 4))).rejects.toThrow();
      expect((await passkeys.of("ada")).map((p) => p.id)).toEqual(["b", "a"]);
      expect(await passkeys.used("a", 0, 5)).toBe(true);
      const uses = await Promise.all([passkeys.used("a", 4, 6), passkeys.used("a", 4, 6)]);
      expect(uses.filter(Boolean)).toEqual([true]);
      expect([await passkeys.used("a", 3, 7), await passkeys.used("none", 1, 7)]).toEqual([false, false]);
      expect(await passkeys.one("a")).toEqual({ ...passkey("a", "ada", 2), counter: 4, usedAt: 6 });
      expect([await passkeys.remove("a", "bo"), await passkeys.remove("a", "ada")]).toEqual([false, true]);
      expect(await passkeys.one("a")).toBeNull();
      await directory.addPeople([person("bo")]);
      await directory.personal.erase("bo", []);
      expect(await passkeys.of("bo")).toEqual([]);
    });

    it("[STO-9] keeps, overwrites and forgets lockouts", async () => {
      const lockout = { key: "person:x", failures: 6, lockedUntil: 1_780_000_000_000, updatedAt: 40 };
      expect(await directory.lockout("person:x")).toBeNull();
      await directory.putLockout({ ...lockout, failures: 5, lockedUntil: null });
      await directory.putLockout(lockout);
      await directory.putLockout({ ...lockout, key: "device:y", updatedAt: 39 });
      expect(await directory.lockout("person:x")).toEqual(lockout);
      await directory.forgetLockouts(40);
      expect([await directory.lockout("device:y"), await directory.lockout("person:x")]).toEqual([
        null,
        lockout,
      ]);
    });

    it("[STO-9] gives back each version of a type with all its figures", async () => {
      await directory.addTypes([FOUR, SECOND], 1);
      const summary = { id: "four", name: FOUR.name, author: FOUR.author, changedAt: 1 };
      const draft = { ...summary, version: 1, status: "draft", approvedBy: null, approvedAt: null };
      const approved = { ...summary, version: 2, status: "approved", approvedBy: "Chief", approvedAt: 1 };
      expect(await directory.types()).toEqual([draft, approved]);
      expect(await directory.type("four", 1)).toEqual({ ...draft, type: FOUR, authors: [], revision: 1 });
      expect(await directory.type("four", 2)).toEqual({
        ...approved,
        type: SECOND,
        authors: [],
        revision: 1,
      });
      expect(await directory.type("four", 3)).toBeNull();
      await expect(directory.addTypes([FOUR], 2)).rejects.toThrow();
    });

    it("[HSE-1] [PRV-5] gives back the newest state of each thing in the register, and its history, newest first", async () => {
      const { register } = directory;
      const bird = bareAircraft({ id: "CH-b", name: "Bird", typeId: "four" });
      const first = firstEntry("aircraft", bird, "program", 1_780_000_000_000);
      const part = (serial: string, hours: number | null) => ({ serial, hours });
      const fitted = [{ n: 1, engine: part("A-1", 1200.5), propeller: part("P", null), starter: "S 2" }];
      const second = {
        ...{ ...first, revision: 2, at: 1_780_000_000_001, by: "ada", reason: "Overhaul: “zero” time" },
        body: { ...bird, fitted, stand: "Stand 4", notes: "Ñandú", retired: true },
      };
      const other = { ...first, id: "CH-A", body: { ...bird, id: "CH-A" } };
      expect(await register.append([first, other])).toBe(true);
      expect(await register.append([second])).toBe(true);
      expect(await register.all("aircraft")).toEqual([other, second]);
      expect(await register.one("aircraft", "CH-b")).toEqual(second);
      expect(await register.one("aircraft", "none")).toBeNull();
      expect(await register.history("aircraft", "CH-b", 9)).toEqual([second, first]);
      expect(await register.history("aircraft", "CH-b", 1)).toEqual([second]);
      const made = { kind: "aircraft", id: "CH-b", revision: 2, at: 1_780_000_000_001 };
      expect([await register.madeBy("ada"), await register.madeBy("bo")]).toEqual([[made], []]);
    });

    it("[CUR-2] [CUR-3] [PRV-5] keeps each person's dates and their latest starts, and forgets them with the person", async () => {
      const { currencies } = directory;
      await directory.addPeople([person("ada"), person("bo")]);
      await currencies.setDates("ada", { fire: "2027-01-31", type: "2028-02-29" });
      await currencies.setDates("bo", { fire: "2026-12-01" });
      await currencies.setDates("ada", { fire: "2027-03-31" });
      const kept = await currencies.dates();
      expect(kept.sort((a, b) => (a.personId < b.personId ? -1 : 1))).toEqual([
        { personId: "ada", kind: "fire", until: "2027-03-31" },
        { personId: "bo", kind: "fire", until: "2026-12-01" },
      ]);
      const start = (personId: string, at: number) => ({ personId, post: "cockpit" as const, at });
      await currencies.noteStarts([start("ada", 1_790_000_000_000), start("bo", 5)]);
      await currencies.noteStarts([start("ada", 7), start("bo", 6)]);
      const starts = async () => (await currencies.lastStarts()).sort((a, b) => b.at - a.at);
      expect(await starts()).toEqual([start("ada", 1_790_000_000_000), start("bo", 6)]);
      await directory.personal.erase("ada", []);
      expect(await starts()).toEqual([start("bo", 6)]);
      expect((await currencies.dates()).map((d) => d.personId)).toEqual(["bo"]);
    });

    it("[EQP-1] [HSE-14] gives back equipment and the house with all their figures", async () => {
      const { register } = directory;
      const out = { cause: "usedUp", words: "Stand 4, “fire”" } as const;
      const entries = [
        firstEntry("equipment", keptAs(CART, { place: "Hangar", notes: "Ñ" }), "di", 1),
        firstEntry("equipment", keptAs(BOTTLE, { out }), "di", 2),
        firstEntry("equipment", keptAs(CHOCKS), "di", 3),
      ];
      const house = {
        id: "house",
        name: "Northfield",
        overdue: { ...ALL_BAR, cart: "warns" },
        inspectsDefects: true,
      } as const;
      const named = firstEntry("house", house, "di", 4);
      expect(await register.append([...entries, named])).toBe(true);
      const [cart, bottle, chocks] = entries;
      expect(await register.all("equipment")).toEqual([chocks, bottle, cart]);
      expect(await register.one("house", "house")).toEqual(named);
    });

    it("[DEF-10] [DEF-12] [DEF-15] gives back a picture's very bytes until it is removed, and counts what there is", async () => {
      const { pictures } = directory;
      const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => i % 251);
      const of = { record: "r1", no: 1, personId: "ada", media: "image/png" as const, length: bytes.length };
      const one = { ...of, sha256: "a".repeat(64), at: 1_790_000_000_000, bytes };
      const two = { ...of, sha256: "b".repeat(64), at: 5, personId: "bo" };
      await pictures.keep(one);
      await pictures.keep({ ...two, bytes: bytes.subarray(0, 3), length: 3 });
      await pictures.keep({ ...one, no: 2 });
      // It is there already, and stays.
      await pictures.keep({ ...one, at: 9, bytes: bytes.subarray(1) });
      const read = await pictures.picture(one);
      expect({ ...read, bytes: null }).toEqual({ ...one, bytes: null });
      expect(Buffer.from(read?.bytes ?? []).equals(Buffer.from(bytes))).toBe(true);
      expect(await pictures.picture({ ...one, record: "r2" })).toBeNull();
      expect((await pictures.rows("r1")).map(({ no, at }) => [no, at])).toEqual([
        [1, 5],
        [1, 1_790_000_000_000],
        [2, 1_790_000_000_000],
      ]);
      expect(await pictures.rows("r2")).toEqual([]);
      expect(await pictures.use("ada", 1_790_000_000_000)).toEqual({ bytes: 140_003, ofPerson: 2 });
      expect(await pictures.use("ada", 1_790_000_000_001)).toEqual({ bytes: 140_003, ofPerson: 0 });
      await pictures.forget(one);
      expect(await pictures.picture(one)).toBeNull();
      expect((await pictures.use("bo", 0)).bytes).toBe(70_003);
    });

    it("[RHS-51] gives back a script of the house with its faults, and each state of it", async () => {
      const { register } = directory;
      const fault = { fault: "oilLost", which: 2, after: "running", seconds: 3.5, chance: 0.25 } as const;
      const words = { en: "Ours, “one”", es: "El nuestro: ñ" };
      const script = { id: "ours", title: words, about: words, airC: -7, slower: 1.5, faults: [fault] };
      const first = firstEntry("script", { id: "ours", script, retired: false }, "di", 1);
      const second = { ...first, revision: 2, at: 2, body: { ...first.body, retired: true } };
      expect(await register.append([first])).toBe(true);
      expect(await register.append([second])).toBe(true);
      expect(await register.one("script", "ours")).toEqual(second);
      expect(await register.history("script", "ours", 5)).toEqual([second, first]);
    });

    it("[HSE-1] [HSE-2] adds all entries or none: of two changes of one revision, one is made", async () => {
      const { register } = directory;
      const entry = (id: string, revision: number, name: string) => ({
        ...firstEntry("aircraft", bareAircraft({ id, name, typeId: "four" }), "ada", 5),
        revision,
      });
      const both = await Promise.all([
        register.append([entry("A", 1, "one")]),
        register.append([entry("A", 1, "two")]),
      ]);
      expect(both.filter(Boolean)).toEqual([true]);
      expect(await register.append([entry("B", 1, "new"), entry("A", 1, "late")])).toBe(false);
      expect((await register.all("aircraft")).map((e) => e.id)).toEqual(["A"]);
    });

    it("[TYP-2] [TYP-4] changes and approves a draft only at the revision it stands at", async () => {
      const draft = (note: string, ...authors: string[]) => ({
        type: { ...FOUR, note, author: authors.join(", ") },
        authors: authors.map((id) => ({ id, name: `Name of ${id}` })),
      });
      expect(await directory.addDraft(draft("first", "ada"), 10)).toBe(true);
      expect(await directory.addDraft(draft("the same version", "bo"), 11)).toBe(false);
      expect(await directory.changeDraft(draft("second", "ada", "bo"), 1, 12)).toBe(true);
      expect(await directory.changeDraft(draft("from the first", "ada"), 1, 13)).toBe(false);
      expect(await directory.type("four", 1)).toMatchObject({
        ...{ status: "draft", revision: 2, author: "ada, bo", changedAt: 12 },
        authors: draft("", "ada", "bo").authors,
        type: { note: "second" },
      });
      const body = { ...draft("second", "ada", "bo").type, approvedBy: "Cy" };
      expect(await directory.approveType(body, { id: "cy", name: "Cy" }, 1, 14, SEAL)).toBe(false);
      expect(await directory.approveType(body, { id: "cy", name: "Cy" }, 2, 15, SEAL)).toBe(true);
      const approved = await directory.type("four", 1);
      expect(approved).toMatchObject({ status: "approved", approvedBy: "Cy", approvedAt: 15, revision: 3 });
      expect(approved?.type).toEqual(body);
      expect(approved?.authors).toEqual(draft("", "ada", "bo").authors);
      expect(await directory.changeDraft(draft("later", "ada"), 3, 16)).toBe(false);
      expect(await directory.approveType(body, { id: "di", name: "Di" }, 3, 17, SEAL)).toBe(false);
      expect(await directory.type("four", 1)).toEqual(approved);
    });

    it("[TYP-14] discards a draft at its revision alone, for good, and keeps its number taken", async () => {
      const two = { type: { ...FOUR, version: 2 }, authors: [] };
      await directory.addTypes([{ ...FOUR, approvedBy: "Chief" }], 1);
      await directory.addDraft(two, 2);
      expect(await directory.discardDraft("four", 2, 2, 3)).toBe(false);
      expect(await directory.discardDraft("four", 1, 1, 3)).toBe(false);
      expect(await directory.discardDraft("four", 2, 1, 3)).toBe(true);
      expect(await directory.discardDraft("four", 2, 1, 4)).toBe(false);
      expect((await directory.types()).map((t) => t.version)).toEqual([1]);
      expect(await directory.type("four", 2)).toBeNull();
      expect(await directory.addDraft(two, 5)).toBe(false);
      expect(await directory.approveType(two.type, { id: "cy", name: "Cy" }, 1, 6, SEAL)).toBe(false);
      expect(await directory.changeDraft(two, 2, 7)).toBe(false);
    });

    it("[TYP-6] calls an approved version superseded once a newer one is approved, not for a draft", async () => {
      const statuses = async () => (await directory.types()).map((t) => `${t.id} ${t.version} ${t.status}`);
      await directory.addTypes(
        [
          { ...FOUR, approvedBy: "Chief" },
          { ...FOUR, id: "other", approvedBy: "Chief" },
        ],
        1,
      );
      await directory.addDraft({ type: { ...FOUR, version: 2 }, authors: [] }, 2);
      expect(await statuses()).toEqual(["four 1 approved", "four 2 draft", "other 1 approved"]);
      await directory.approveType(SECOND, { id: "cy", name: "Cy" }, 1, 3, SEAL);
      expect(await statuses()).toEqual(["four 1 superseded", "four 2 approved", "other 1 approved"]);
      expect((await directory.type("four", 1))?.status).toBe("superseded");
    });
  });
}
