import { type Channels, channelFaults } from "../../shared/house/channels.ts";
import { firstEntry, type RegisterEntry } from "../../shared/house/register.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { asSupervisor, type By, Entries, stale } from "./entries.ts";
import { HouseRefused, inOrder } from "./refused.ts";

/** The channels of each aircraft's instruments, in the register. Every method may throw HouseRefused. */
export class ChannelRegister {
  readonly #directory: Directory;
  readonly #clock: Clock;
  readonly #entries: Entries<"channels">;

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#clock = clock;
    this.#entries = new Entries("channels", "aircraft", directory, clock);
  }

  /** Returns an aircraft's channels; revision 0 while it has none. */
  async of(aircraft: string): Promise<RegisterEntry<"channels">> {
    const { register } = this.#directory;
    const entry = await register.one("channels", aircraft);
    if (entry) return entry;
    if (!(await register.one("aircraft", aircraft))) throw this.#entries.none(aircraft);
    return { ...firstEntry("channels", { id: aircraft, channels: [] }, "program", 0), revision: 0 };
  }

  /** Replaces an aircraft's channels, if they are still at `revision`. */
  async change(by: By, to: Channels, revision: number): Promise<RegisterEntry<"channels">> {
    asSupervisor(by);
    const now = await this.of(to.id);
    if (now.revision !== revision) throw stale(to.id);
    const known = (await this.#directory.register.one("aircraft", to.id))?.body;
    const type = known && (await this.#directory.type(known.typeId, known.typeVersion))?.type;
    if (!type) throw new HouseRefused("notFound", `There is no type of ${to.id} in the register`);
    inOrder(channelFaults(to, type));
    if (revision > 0) return this.#entries.put(now, by, to, null);
    const entry = firstEntry("channels", to, by.id, this.#clock.now());
    if (!(await this.#directory.register.append([entry]))) throw stale(to.id);
    return entry;
  }
}
