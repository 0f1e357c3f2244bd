import { ALL_BAR } from "../../shared/house/house.ts";
import { firstEntry } from "../../shared/house/register.ts";
import { CODE_MS, CONSOLE, FIRST, giveCode } from "../auth/devices.ts";
import { addPerson, type NewPeopleDeps, type NewPerson } from "../auth/new-person.ts";
import { OfficeRefused } from "../auth/refused.ts";
import type { PersonRecord } from "../store/directory.ts";

/** Lifetime of the first link. A person has to read it from the server's console and carry it to a tablet. Milliseconds. */
const LINK_MS = 12 * CODE_MS;

interface FirstRunDeps extends NewPeopleDeps {
  ids: NewPeopleDeps["ids"] & { device(): string; enrolmentCode(): string };
  /** True when the demo's people may sign in. */
  demo: boolean;
}

/** The entry of the first supervisor. */
export interface FirstEntry {
  /** The house's name. */
  house: string;
  person: NewPerson;
}

/**
 * The first run of an empty house: a link from the server's console enrols the first device, and on that device the
 * first supervisor is entered. Each step is whole by itself, so the run can be left and taken up again.
 */
export class FirstRun {
  readonly #deps: FirstRunDeps;

  constructor(deps: FirstRunDeps) {
    this.#deps = deps;
  }

  /** True until somebody who is not of the demo may sign in as supervisor. Never with the demo on. */
  async isOpen(): Promise<boolean> {
    const { directory, demo } = this.#deps;
    if (demo) return false;
    const people = await directory.people();
    return !people.some((p) => !p.demo && p.active && p.mayHold.includes("supervisor"));
  }

  /** Returns the one code for the first device. Codes given before for it are no longer good. */
  async code(): Promise<{ code: string; expiresAt: number }> {
    await this.#deps.directory.devices.withdrawCodes(FIRST);
    return giveCode(this.#deps, FIRST, "First device", LINK_MS);
  }

  /**
   * Enters the house's name and the first supervisor, on a device that the server's console enrolled. The supervisor is
   * added last: until then the first run stays open.
   * @throws OfficeRefused when there is a supervisor already, or the device is another
   */
  begin(entry: FirstEntry, thumbprint: string): Promise<PersonRecord> {
    const { directory, clock } = this.#deps;
    return directory.inTurn(["firstRun"], async () => {
      const device = await directory.devices.byThumbprint(thumbprint);
      const first = device?.revokedAt === null && [FIRST, CONSOLE].includes(device.enrolledBy);
      if (!first) {
        const message = "Only a device enrolled from the server's console enters the first supervisor";
        throw new OfficeRefused("notQualified", message);
      }
      if (!(await this.isOpen())) {
        const message = "This house has a supervisor: sign in, or ask that supervisor to add you";
        throw new OfficeRefused("taken", message);
      }
      if (!entry.person.mayHold.includes("supervisor")) {
        const message = "The first person must be qualified as supervisor";
        throw new OfficeRefused("notQualified", message);
      }
      const now = await directory.register.one("house", "house");
      const rules = { overdue: ALL_BAR, inspectsDefects: false, ...now?.body };
      const body = { ...rules, id: "house" as const, name: entry.house };
      const named = firstEntry("house", body, FIRST, clock.now());
      await directory.register.append([{ ...named, revision: (now?.revision ?? 0) + 1 }]);
      const person = await addPerson(this.#deps, entry.person);
      await directory.devices.withdrawCodes(FIRST);
      return person;
    });
  }
}
