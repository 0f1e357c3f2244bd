import { type AircraftType, aircraftTypeSchema } from "../../shared/types/schema.ts";
import { unfitFigures } from "../../shared/types/unfit.ts";
import type { Clock } from "../clock.ts";
import type { EvidenceSigner } from "../evidence/signer.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import type { Seal, StoredType } from "../store/stored-type.ts";
import { TypeRefused } from "./refused.ts";
import { claimed, sealFault, sealOf } from "./seal.ts";

interface SealsDeps {
  directory: Directory;
  signer: EvidenceSigner;
  clock: Clock;
  log: { error(detail: object, message: string): void };
  /** True if figures that are invented or about another type may be used: in the demo alone. */
  demoFigures: boolean;
}

/** The version of a type that a start may be planned on, or why none may. */
type Usable = { type: AircraftType; seal: string } | { why: string };

/**
 * The seals of approved versions. An approved version is used only while its row is, byte for byte, what was sealed,
 * and while the database holds its guards against a change.
 */
export class TypeSeals {
  readonly #deps: SealsDeps;

  constructor(deps: SealsDeps) {
    this.#deps = deps;
  }

  /** Returns the seal of a version as it is to be approved now. */
  seal(row: StoredType): Seal {
    return sealOf(row, "approved", this.#deps.signer, this.#deps.clock.now());
  }

  /**
   * Seals the versions that were approved before there were seals, once: while no version of this database has a seal.
   * Then reports every version that may not be used in the log.
   */
  async begin(): Promise<void> {
    const { log } = this.#deps;
    const rows = await this.#rows();
    if (typeof rows === "string") return log.error({ why: rows }, "no aircraft type can be used");
    if (!rows.some((row) => row.seal !== null))
      // Starts that are open go on without a type's seal; only a new one needs it.
      await this.sealAsFound().catch((error: unknown) =>
        log.error({ err: error }, "the approved aircraft types could not be sealed"),
      );
    for (const [place, why] of await this.faults())
      log.error({ type: place, why }, "this type cannot be used");
  }

  /** Seals every approved version that has no seal, as it is; its seal says so. */
  async sealAsFound(): Promise<void> {
    const { directory, signer, clock } = this.#deps;
    for (const row of await directory.storedTypes())
      if (row.status === "approved" && row.seal === null)
        await directory.sealType(row.id, row.version, sealOf(row, "found", signer, clock.now()));
  }

  /** Returns in words why versions may not be used, each under its id and version joined by a space. */
  async faults(): Promise<Map<string, string>> {
    const rows = await this.#rows();
    if (typeof rows === "string") return new Map();
    return new Map(
      rows.flatMap((row) => {
        const { id, version } = claimed(row);
        const why = this.#whyNot(row, id, version);
        return why === null ? [] : [[`${id} ${version}`, why] as const];
      }),
    );
  }

  /**
   * Returns the newest approved version of a type, or why it may not be used; null when none is approved. A version
   * that was changed never lets an older one take its place.
   */
  async usable(id: string): Promise<Usable | null> {
    const rows = await this.#rows();
    if (typeof rows === "string") return { why: rows };
    const own = rows
      .filter((row) => row.status === "approved" || row.seal !== null)
      .map((row) => ({ row, as: claimed(row) }))
      .filter(({ row, as }) => as.id === id || row.id === id);
    const newest = own.sort((a, b) => b.as.version - a.as.version)[0];
    if (!newest) return null;
    const missing = await this.#missingGuard();
    if (missing) return { why: missing };
    const why = this.#whyNot(newest.row, newest.as.id, newest.as.version);
    if (why !== null) return { why };
    const type = aircraftTypeSchema.parse(JSON.parse(newest.row.body));
    const unfit = this.#deps.demoFigures ? 0 : unfitFigures(type).length;
    const seal = sha256(newest.row.seal?.note ?? "");
    return unfit === 0 ? { type, seal } : { why: demoOnly(id, newest.row.version, unfit) };
  }

  /**
   * Refuses a version whose row is not what was sealed, or cannot be read. One that only lacks its seal, or has that of
   * another key, may be read and copied into a draft, which a second person approves.
   * @throws TypeRefused
   */
  async refuseChanged(id: string, version: number): Promise<void> {
    const rows = await this.#rows();
    if (typeof rows === "string") throw new TypeRefused("notAsApproved", rows);
    const row = rows.find((r) => {
      const as = claimed(r);
      return (as.id === id && as.version === version) || (r.id === id && r.version === version);
    });
    if (row && sealFault(row, this.#deps.signer.publicHex) === "changed")
      throw new TypeRefused("notAsApproved", this.#whyNot(row, id, version) ?? "");
  }

  #whyNot(row: StoredType, id: string, version: number): string | null {
    const fault = sealFault(row, this.#deps.signer.publicHex);
    switch (fault) {
      case null:
        return null;
      case "unsealed":
        return `version ${version} of ${id} is approved without a seal: make a draft of it and approve that`;
      case "otherKey":
        return `version ${version} of ${id} was sealed with another signing key: restore that key`;
      case "changed":
        return `version ${version} of ${id} is not what was approved: restore a backup of the database`;
      default:
        return fault satisfies never;
    }
  }

  /** Returns every stored version, or in words that they cannot be read. */
  async #rows(): Promise<StoredType[] | string> {
    try {
      return await this.#deps.directory.storedTypes();
    } catch (error) {
      this.#deps.log.error({ err: error }, "the stored types cannot be read");
      return "the stored aircraft types cannot be read: restore a backup of the database";
    }
  }

  async #missingGuard(): Promise<string | null> {
    const [missing] = await this.#deps.directory.missingTypeGuards();
    return missing === undefined
      ? null
      : `the database lacks its guard ${missing}: stop the server and run npm run doctor`;
  }
}

function demoOnly(id: string, version: number, figures: number): string {
  return `version ${version} of ${id} rests on ${figures} figures that are invented or about another type: it is for the demo alone`;
}
