import type { CsvFault } from "../../shared/house/lists/csv.ts";
import { cellsChanged, type ListChange, readList } from "../../shared/house/lists/list.ts";
import {
  datesIn,
  type ListedPerson,
  peopleColumns,
  personCells,
  postsIn,
} from "../../shared/house/lists/people.ts";
import { daySchema } from "../../shared/protocol/equipment.ts";
import { handleSchema, mayHoldSchema, nameSchema } from "../auth/new-person.ts";
import { newPinSchema } from "../auth/new-pin.ts";
import { hashPin } from "../auth/pin.ts";
import { skeleton } from "../auth/skeleton.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { By } from "./entries.ts";
import { type ListDeps, type ListWork, nothing } from "./list-work.ts";
import { bodyOn } from "./register-list.ts";

type Listed = ListedPerson & { id: string };

/** A line of the list, read and in order. */
interface TakenPerson {
  line: number;
  was: Listed | undefined;
  /** The first PIN of a new person; empty for anybody else. */
  pin: string;
  now: Omit<ListedPerson, "mayHold"> & Pick<PersonRecord, "mayHold">;
}

/** Returns everybody with their dates, by name. */
export async function listedPeople(directory: Directory): Promise<Listed[]> {
  const dates = await directory.currencies.dates();
  return (await directory.people()).map(({ id, handle, name, mayHold, active }) => {
    const own = dates.filter((d) => d.personId === id).map((d) => [d.kind, d.until]);
    return { id, handle, name, mayHold, active, dates: Object.fromEntries(own) };
  });
}

/** Returns what a list of people would do. Nobody changes their own posts and dates. */
export async function peopleWork(deps: ListDeps, by: By, text: string): Promise<ListWork> {
  const { directory } = deps;
  const kinds = (await directory.register.all("currency")).map((e) => e.id);
  const read = readList(text, peopleColumns(kinds), "handle");
  if ("faults" in read) return nothing(read.faults);
  const there = await listedPeople(directory);
  const faults: CsvFault[] = [];
  const taken: TakenPerson[] = [];
  for (const { line, cells } of read.rows) {
    const was = there.find((p) => p.handle === (cells.handle ?? "").toLowerCase());
    const read = personOn(line, cells, was, deps.pinLength);
    if ("faults" in read) {
      faults.push(...read.faults);
      continue;
    }
    taken.push(read);
    if (was?.id === by.id) faults.push(...ownFaults(line, was, read.now));
  }
  faults.push(...alikeFaults(taken, there));
  const rows = taken.map(({ line, was, now }): ListChange => {
    const cells = cellsChanged(was ? personCells(was) : {}, personCells(now));
    return { line, id: now.handle, is: was ? (cells.length > 0 ? "changed" : "same") : "added", cells };
  });
  const changed = taken.filter(({ was }, i) => was && rows[i]?.is === "changed");
  const losing = changed.flatMap(({ was, now }) =>
    was?.mayHold.some((post) => !now.mayHold.includes(post)) ? [was.id] : [],
  );
  return { rows, faults, losing, write: () => write(deps, taken, changed, losing) };
}

async function write(
  { directory, clock, ids, pinCost, endSignIns }: ListDeps,
  taken: readonly TakenPerson[],
  changed: readonly TakenPerson[],
  losing: readonly string[],
): Promise<void> {
  const added: (PersonRecord & { dates: ListedPerson["dates"] })[] = [];
  for (const { was, now, pin } of taken)
    if (!was)
      added.push({
        ...{ ...now, id: ids.person(), pinHash: await hashPin(pin, pinCost) },
        ...{ createdAt: clock.now(), demo: false },
      });
  await directory.takePeople({
    added: added.map(({ dates: _dates, ...person }) => person),
    changed: changed.flatMap(({ was, now }) => (was ? [{ ...now, id: was.id }] : [])),
    dates: [
      ...added.map(({ id, dates }) => ({ personId: id, dates })),
      ...changed.flatMap(({ was, now }) => (was ? [{ personId: was.id, dates: now.dates }] : [])),
    ],
  });
  for (const person of losing) await endSignIns(person);
}

function personOn(
  line: number,
  cells: Readonly<Record<string, string>>,
  was: Listed | undefined,
  pinLength: number,
): TakenPerson | { faults: CsvFault[] } {
  const whole: Readonly<Record<string, string>> = { ...(was ? personCells(was) : {}), ...cells };
  const faults: CsvFault[] = [];
  const about = (column: string, message: string) => faults.push({ line, column, message });
  const given = <T>(column: string, parsed: Parameters<typeof bodyOn<T>>[1]): T | undefined => {
    const read = bodyOn(line, parsed, () => column);
    if ("body" in read) return read.body;
    faults.push(...read.faults);
    return undefined;
  };
  const handle = was?.handle ?? given("handle", handleSchema.safeParse(whole.handle));
  const name = given("name", nameSchema.safeParse(whole.name ?? ""));
  const mayHold = given("posts", mayHoldSchema.safeParse(postsIn(whole.posts)));
  const dates = datesIn(whole);
  for (const [kind, day] of Object.entries(dates)) given(`until:${kind}`, daySchema.safeParse(day));
  const pin = whole.pin ?? "";
  if (!was && pin === "") about("pin", "is needed: a new person signs in with it the first time");
  else if (!was) given("pin", newPinSchema(pinLength).safeParse(pin));
  else if (pin !== "") about("pin", "is for a new person: replace a PIN on the page of people");
  const signIn = was && !was.active ? "blocked" : "";
  if ((whole.signIn ?? "") !== signIn) about("signIn", "is changed on the page of people");
  if (faults.length > 0 || handle === undefined || name === undefined || mayHold === undefined)
    return { faults };
  return { line, was, pin, now: { handle, name, mayHold, active: was?.active ?? true, dates } };
}

function ownFaults(line: number, was: Listed, now: TakenPerson["now"]): CsvFault[] {
  const own = new Set(["name", "handle"]);
  return cellsChanged(personCells(was), personCells(now))
    .filter(({ column }) => !own.has(column))
    .map(({ column }) => ({ line, column, message: "is your own: another person changes it" }));
}

/** Two people who may sign in never bear names that look the same. */
function alikeFaults(taken: readonly TakenPerson[], there: readonly Listed[]): CsvFault[] {
  const named = new Set(taken.map(({ now }) => now.handle));
  const all = [...there.filter((p) => !named.has(p.handle)), ...taken.map(({ now }) => now)];
  const active = all.filter((p) => p.active);
  return taken.flatMap(({ line, was, now }) => {
    if (was?.name === now.name || !now.active) return [];
    const other = active.find((p) => p.handle !== now.handle && skeleton(p.name) === skeleton(now.name));
    return other
      ? [{ line, column: "name", message: `looks like ${other.name}, the name of ${other.handle}` }]
      : [];
  });
}
