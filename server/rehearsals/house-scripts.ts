import type { RegisterEntry } from "../../shared/house/register.ts";
import type { HouseScript } from "../../shared/house/script.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { scriptFaults } from "../../shared/rehearsal/scriptFaults.ts";
import { rehearsalWords } from "../../shared/words/rehearsed.ts";
import type { Clock } from "../clock.ts";
import { asSupervisor, type By, Entries } from "../house/entries.ts";
import { HouseRefused, inOrder } from "../house/refused.ts";
import type { Directory } from "../store/directory.ts";
import { SCRIPTS } from "./scripts.ts";

type Entry = RegisterEntry<"script">;

/** The scripts that the house wrote or took in, in its register, beside those of the program. */
export class HouseScripts {
  readonly #entries: Entries<"script">;

  constructor(directory: Directory, clock: Clock) {
    this.#entries = new Entries("script", "script", directory, clock);
  }

  /** Returns every script of the house, those that are out of use too. */
  all(): Promise<Entry[]> {
    return this.#entries.all();
  }

  /** Returns the scripts that one may begin with: the program's, then the house's. */
  async usable(): Promise<RehearsalScript[]> {
    const own = (await this.all()).filter(({ body }) => !body.retired).map(({ body }) => body.script);
    return [...SCRIPTS, ...own];
  }

  /**
   * Keeps a new script.
   * @throws HouseRefused
   */
  async add(by: By, script: RehearsalScript): Promise<Entry> {
    asSupervisor(by);
    if (SCRIPTS.some(({ id }) => id === script.id))
      throw new HouseRefused("taken", `${script.id} comes with the program: give yours another id`);
    inOrder(faultsOf(script));
    return this.#entries.add(by, { id: script.id, script, retired: false });
  }

  /**
   * Replaces a script, or takes it out of use, if it is still at `revision`.
   * @throws HouseRefused
   */
  async change(by: By, to: HouseScript, revision: number): Promise<Entry> {
    asSupervisor(by);
    const now = await this.#entries.at(to.id, revision);
    if (to.script.id !== to.id)
      inOrder([{ path: "script.id", message: `the id of this script is ${to.id}` }]);
    inOrder(faultsOf(to.script));
    return this.#entries.put(now, by, to, null);
  }
}

const faultsOf = (script: RehearsalScript) =>
  scriptFaults(script).map(({ path, is }) => ({ path, message: rehearsalWords("en").scriptFaults[is] }));
