import { canonical } from "../../shared/evidence/canonical.ts";
import { enteredBy } from "../../shared/types/enteredBy.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readTransfer } from "../../shared/types/transfer.ts";
import { unfitFigures } from "../../shared/types/unfit.ts";
import { unitsChangedAlone } from "../../shared/types/unitChanged.ts";
import { unsourced } from "../../shared/types/unsourced.ts";
import { readAircraftType, type TypeFault } from "../../shared/types/validate.ts";
import { warningsOf } from "../../shared/types/warnings.ts";
import type { Identity } from "../auth/identity.ts";
import type { Clock } from "../clock.ts";
import type { Directory, Named, TypeVersion } from "../store/directory.ts";
import type { StoredType } from "../store/stored-type.ts";
import { TypeRefused } from "./refused.ts";
import type { TypeSeals } from "./seals.ts";
import { oversize } from "./size.ts";

/** A person who drafts or approves a version. */
export type Engineer = Pick<Identity["person"], "id" | "name" | "mayHold">;

/** A draft's version and revision. */
export interface DraftPlace {
  id: string;
  version: number;
  revision: number;
}

const AUTHOR_LENGTH = 80;
const MOST_FAULTS = 200;

/**
 * Drafts, changes and approves aircraft types. Nobody approves a draft they worked on. An approved version never
 * changes. Every method may throw TypeRefused.
 */
export class TypeDrafts {
  readonly #directory: Directory;
  readonly #clock: Clock;
  readonly #seals: TypeSeals;
  readonly #demoFigures: boolean;

  /** @param demoFigures true if figures that are invented or about another type may be approved: in the demo alone */
  constructor(directory: Directory, clock: Clock, seals: TypeSeals, demoFigures: boolean) {
    this.#directory = directory;
    this.#clock = clock;
    this.#seals = seals;
    this.#demoFigures = demoFigures;
  }

  /** Adds a draft of the type with the figures of version `from`. */
  async draft(by: Engineer, id: string, from: number): Promise<DraftPlace> {
    qualified(by);
    return this.#add((await this.#get(id, from)).type, by);
  }

  /** Adds version 1 of a new type, with the figures of another type's version. */
  async begin(by: Engineer, to: { id: string; name: string }, from: { id: string; version: number }) {
    qualified(by);
    const { type } = await this.#get(from.id, from.version);
    if ((await this.#versions(to.id)).length > 0)
      throw new TypeRefused("taken", `There is a type ${to.id} already: make a draft of it`);
    return this.#add({ ...(enteredBy(null, type, by.name) as AircraftType), ...to }, by);
  }

  /** Adds version 1 of a type that was begun from nothing. Everybody who entered a part of it is its author. */
  fromBegun(type: AircraftType, authors: readonly Named[]): Promise<DraftPlace> {
    return this.#store(type, authors);
  }

  /** Adds a draft with the figures of an exported file: a version of the type it names, which may be new. */
  async import(by: Engineer, file: unknown): Promise<DraftPlace> {
    qualified(by);
    ofSize(file);
    const read = readTransfer(file);
    if ("faults" in read) throw faulty(read.faults);
    return this.#add(enteredBy(null, read.type, by.name) as AircraftType, by);
  }

  /** Returns the first 200 faults of a type, none when it is in order, and the figures that a person should look at. */
  async judge(by: Engineer, data: unknown): Promise<{ faults: TypeFault[]; warnings: TypeFault[] }> {
    qualified(by);
    const large = oversize(data);
    if (large) return { faults: [large], warnings: [] };
    const read = readAircraftType(data);
    if ("faults" in read) return { faults: read.faults.slice(0, MOST_FAULTS), warnings: [] };
    const { id, version } = read.type;
    const now = await this.#directory.type(id, version);
    const faults = now ? await this.#unitsAlone(now, read.type) : [];
    return { faults: faults.slice(0, MOST_FAULTS), warnings: warningsOf(read.type) };
  }

  /**
   * Replaces a draft's figures if it is still at `revision`. The server sets author and approval; id and version must
   * stay.
   */
  async change(by: Engineer, id: string, version: number, revision: number, data: unknown) {
    qualified(by);
    const now = await this.#get(id, version);
    stillDraft(now);
    if (now.revision !== revision) throw stale(now);
    ofSize(data);
    const read = readAircraftType(data);
    if ("faults" in read) throw faulty(read.faults);
    const faults: TypeFault[] = [];
    if (read.type.id !== id) faults.push({ path: "id", message: `must stay ${id}` });
    if (read.type.version !== version) faults.push({ path: "version", message: `must stay ${version}` });
    faults.push(...(await this.#unitsAlone(now, read.type)));
    if (faults.length > 0) throw faulty(faults);
    const authors = withName(now.authors, by);
    const signed = enteredBy(now.type, read.type, by.name) as AircraftType;
    const type = { ...signed, author: authorLine(authors), approvedBy: null };
    if (!(await this.#directory.changeDraft({ type, authors }, revision, this.#clock.now())))
      throw stale(now);
    return { id, version, revision: revision + 1 };
  }

  /** Discards the draft if it is still at `revision`. Its version number is not used again. */
  async discard(by: Engineer, id: string, version: number, revision: number): Promise<void> {
    qualified(by);
    const now = await this.#get(id, version);
    stillDraft(now);
    if (now.revision !== revision) throw stale(now);
    if (!(await this.#directory.discardDraft(id, version, revision, this.#clock.now()))) throw stale(now);
  }

  /** Approves the draft if it is still at `revision`. */
  async approve(by: Engineer, id: string, version: number, revision: number): Promise<DraftPlace> {
    qualified(by);
    const now = await this.#get(id, version);
    stillDraft(now);
    if (now.authors.some((a) => a.id === by.id)) {
      const message = `${by.name} had a hand in version ${version}: a second person approves it`;
      throw new TypeRefused("ownWork", message);
    }
    if (now.revision !== revision) throw stale(now);
    const newer = (await this.#versions(id)).find((t) => t.status === "approved" && t.version > version);
    if (newer) {
      const message = `Version ${newer.version} is approved and newer: make a draft from it`;
      throw new TypeRefused("overtaken", message);
    }
    const read = readAircraftType({ ...now.type, approvedBy: by.name });
    if ("faults" in read) throw faulty(read.faults);
    const unfit = this.#demoFigures ? [] : [...unfitFigures(read.type), ...unsourced(read.type)];
    if (unfit.length > 0) throw faulty(unfit);
    const approver: Named = { id: by.id, name: by.name };
    const at = this.#clock.now();
    const stored = (await this.#directory.storedTypes()).find((t) => t.id === id && t.version === version);
    if (stored?.revision !== revision) throw stale(now);
    const seal = this.#seals.seal(asApproved(stored, read.type, approver, at));
    if (!(await this.#directory.approveType(read.type, approver, revision, at, seal))) throw stale(now);
    return { id, version, revision: revision + 1 };
  }

  /** Adds the figures as the next version of their type, with this author only. */
  #add(figures: AircraftType, by: Engineer): Promise<DraftPlace> {
    return this.#store(figures, withName([], by));
  }

  async #store(figures: AircraftType, authors: readonly Named[]): Promise<DraftPlace> {
    const { id } = figures;
    // Try the next number when this one was taken meanwhile, or belonged to a discarded draft.
    for (let passed = 0; ; passed += 1) {
      const version = Math.max(0, ...(await this.#versions(id)).map((t) => t.version)) + 1 + passed;
      const type = { ...figures, version, author: authorLine(authors), approvedBy: null };
      if (await this.#directory.addDraft({ type, authors }, this.#clock.now()))
        return { id, version, revision: 1 };
    }
  }

  /** Returns the units that changed without their figures since the draft was stored, or since the version before. */
  async #unitsAlone(now: TypeVersion, after: AircraftType): Promise<TypeFault[]> {
    const older = (await this.#versions(now.id)).findLast((t) => t.version < now.version);
    const before = older && (await this.#directory.type(older.id, older.version));
    const found = [now, before].flatMap((v) => (v ? unitsChangedAlone(v.type, after) : []));
    return found.filter((f, i) => found.findIndex((g) => g.path === f.path) === i);
  }

  async #versions(id: string) {
    return (await this.#directory.types()).filter((t) => t.id === id);
  }

  /** @throws TypeRefused when there is none, or when it is approved and is not what was sealed */
  async #get(id: string, version: number): Promise<TypeVersion> {
    await this.#seals.refuseChanged(id, version);
    const found = await this.#directory.type(id, version);
    if (!found) throw new TypeRefused("notFound", `There is no version ${version} of a type ${id}`);
    return found;
  }
}

/** Returns a draft's row as it is stored once it is approved. */
function asApproved(draft: StoredType, type: AircraftType, by: Named, at: number): StoredType {
  return {
    ...draft,
    ...{ name: type.name, author: type.author, body: canonical(type), status: "approved" },
    ...{ approvedBy: by.name, approvedById: by.id, approvedAt: at },
    ...{ changedAt: at, revision: draft.revision + 1 },
  };
}

/** @throws TypeRefused when the person may not draft or approve types */
export function qualified({ name, mayHold }: Engineer): void {
  if (!mayHold.includes("supervisor"))
    throw new TypeRefused("notQualified", `${name} is not qualified as supervisor`);
}

function stillDraft({ id, version, status, approvedBy }: TypeVersion): void {
  if (status !== "draft") {
    const message = `Version ${version} of ${id} was approved by ${approvedBy}: make a new draft from it`;
    throw new TypeRefused("approved", message);
  }
}

function stale({ version }: TypeVersion): TypeRefused {
  const message = `Version ${version} was changed after you read it: read it again, then make your change anew`;
  return new TypeRefused("stale", message);
}

/** @throws TypeRefused when it is larger than an aircraft type can be */
export function ofSize(data: unknown): void {
  const large = oversize(data);
  if (large) throw faulty([large]);
}

/** Returns the refusal of data that is no type, with each fault's place. */
export function faulty(all: TypeFault[]): TypeRefused {
  const faults = all.slice(0, MOST_FAULTS);
  const detail = faults.map((f) => `${f.path === "" ? "file" : f.path}: ${f.message}`).join("; ");
  return new TypeRefused("faultyType", detail, faults);
}

function withName(authors: readonly Named[], { id, name }: Engineer): Named[] {
  return authors.some((a) => a.id === id) ? [...authors] : [...authors, { id, name }];
}

/** Returns the names of the authors as a type states them. */
export function authorLine(authors: readonly Named[]): string {
  const all = authors.map((a) => a.name).join(", ");
  return all.length <= AUTHOR_LENGTH
    ? all
    : `${authors[0]?.name.slice(0, 60)} and ${authors.length - 1} others`;
}
