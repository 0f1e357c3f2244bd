import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Directory, PersonRecord, SignInRecord } from "../../server/store/directory.ts";
import { FOUR } from "../spec/aircraft.ts";

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
  createdAt: 100,
  expiresAt: 200,
  revokedAt: null,
  ...over,
});

/** What every directory does, run on each of them. */
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
      expect(await directory.standing(ids, 150)).toEqual(new Set(["good"]));
      expect(await directory.standing(ids, 149)).toEqual(new Set(["good", "over"]));
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

    it("[STO-9] gives back aircraft, and each version of a type with all its figures", async () => {
      const second = { ...FOUR, version: 2, approvedBy: "Chief engineer" };
      await directory.addTypes([FOUR, second], 1);
      await directory.addAircraft([{ id: "CH-TST", name: "Test bird", typeId: "four" }], 1);
      expect(await directory.aircraft()).toEqual([{ id: "CH-TST", name: "Test bird", typeId: "four" }]);
      expect(await directory.types()).toEqual([
        { id: "four", version: 1, name: FOUR.name, status: "notApproved" },
        { id: "four", version: 2, name: FOUR.name, status: "approved" },
      ]);
      expect([await directory.type("four", 1), await directory.type("four", 2)]).toEqual([FOUR, second]);
      expect(await directory.type("four", 3)).toBeNull();
    });
  });
}
