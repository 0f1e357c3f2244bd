// npm run house: says what the house still lacks. `USAGE` lists the other commands. A server may run on the same
// database, and shows each change at once. The database must exist.

import { bareAircraft, houseAircraftSchema } from "../shared/house/aircraft.ts";
import { newestApproved } from "../shared/house/planBar.ts";
import type { HouseStep } from "../shared/house/steps.ts";
import { POSTS } from "../shared/protocol/posts.ts";
import { line } from "../shared/protocol/text.ts";
import { CONSOLE } from "./auth/devices.ts";
import { addPerson, mayHoldSchema, newPersonSchema } from "./auth/new-person.ts";
import { losesPosts } from "./auth/people.ts";
import { PIN_COST } from "./auth/pin.ts";
import { OfficeRefused } from "./auth/refused.ts";
import { ServiceAccounts } from "./auth/service-accounts.ts";
import { readConfig } from "./config.ts";
import { enteredLine } from "./entered-line.ts";
import { ACCOUNT_USAGE, addAccount, listAccounts, revokeAccount } from "./house/account-commands.ts";
import { AircraftRegister } from "./house/aircraft.ts";
import { barWords } from "./house/bar-words.ts";
import { checked } from "./house/checked.ts";
import type { By } from "./house/entries.ts";
import { EquipmentRegister } from "./house/equipment.ts";
import {
  addEquipment,
  EQUIPMENT_FIGURES,
  EQUIPMENT_USAGE,
  listEquipment,
  putBack,
  takeOut,
} from "./house/equipment-commands.ts";
import { FirstRun } from "./house/first-run.ts";
import { LIST_USAGE, listCommands } from "./house/list-commands.ts";
import { HouseLists } from "./house/lists.ts";
import { HouseRefused } from "./house/refused.ts";
import { changeHouse, houseOf } from "./house/settings.ts";
import { stepsOf } from "./house/steps.ts";
import { randomIds } from "./ids.ts";
import { sha256 } from "./sha256.ts";
import { StartRefused } from "./start-refused.ts";
import type { Directory } from "./store/directory.ts";
import { openDirectory } from "./store/stores.ts";

const USAGE = `usage: npm run house                    what the house still lacks before its first start
       npm run house -- link            another link for the first device, while nobody can sign in
       npm run house -- people
       echo "$PIN" | npm run house -- people add <handle> "<name>" <posts>
       npm run house -- people posts <handle> <posts>
       npm run house -- types
       npm run house -- aircraft
       npm run house -- aircraft add <registration> "<name>" <type>
       npm run house -- aircraft retire <registration> "<reason>"
${EQUIPMENT_USAGE}
${LIST_USAGE}
${ACCOUNT_USAGE}
       npm run house -- currencies
       npm run house -- name "<name of the house>"
  posts: one or more of cockpit, fireGuard, groundPower, supervisor, with commas between
${EQUIPMENT_FIGURES}`;

/** The author recorded for each change: anybody with an account on the server's machine. */
const BY: By = { id: CONSOLE, name: CONSOLE, mayHold: ["supervisor"] };
const clock = { now: Date.now };
const config = readConfig(process.env);

const STEPS: Readonly<Record<Exclude<HouseStep["step"], "plan">, string>> = {
  supervisor: "a first supervisor: open the link (npm run house -- link)",
  device: "a device: a supervisor enrols it, or npm run device",
  people: "people for every post, two of them qualified as supervisor",
  type: "an approved aircraft type: one supervisor enters it, another approves it",
  aircraft: "an aircraft on an approved type",
};

await main().catch((error: unknown) => {
  const known = [StartRefused, HouseRefused, OfficeRefused].some((kind) => error instanceof kind);
  console.error(known ? `chockside: ${(error as Error).message}` : error);
  process.exit(1);
});

async function main(): Promise<void> {
  const [topic = "missing", verb = "list", ...rest] = process.argv.slice(2);
  const commands: Readonly<Record<string, (directory: Directory) => Promise<void>>> = {
    "missing list": missing,
    "link list": link,
    "people list": people,
    "people add": (directory) => addOne(directory, rest),
    "people posts": (directory) => setPosts(directory, rest),
    "types list": types,
    "aircraft list": aircraft,
    "aircraft add": (directory) => addAircraft(directory, rest),
    "aircraft retire": (directory) => retire(directory, rest),
    "currencies list": currencies,
    ...listCommands(lists, BY, rest),
    "accounts list": (directory) => listAccounts(accounts(directory), BY, Date.now()),
    "accounts add": (directory) => addAccount(accounts(directory), BY, rest),
    "accounts revoke": (directory) => revokeAccount(accounts(directory), BY, rest),
    "equipment list": (directory) => listEquipment(equipment(directory)),
    "equipment add": (directory) => addEquipment(equipment(directory), BY, rest),
    "equipment out": (directory) => takeOut(equipment(directory), BY, rest),
    "equipment back": (directory) => putBack(equipment(directory), BY, rest),
  };
  const command = topic === "name" ? rename(verb, rest) : commands[`${topic} ${verb}`];
  if (!command) throw new StartRefused(USAGE);
  const { directory, close } = await openDirectory(config, Date.now());
  try {
    await command(directory);
  } finally {
    await close();
  }
}

function equipment(directory: Directory): EquipmentRegister {
  return new EquipmentRegister(directory, clock);
}

function accounts(directory: Directory): ServiceAccounts {
  return new ServiceAccounts({ directory, clock, ids: randomIds, pinCost: PIN_COST });
}

function lists(directory: Directory): HouseLists {
  const endSignIns = async (personId: string) =>
    void (await directory.revokeSignIns({ personId }, clock.now()));
  const { pinLength } = config.limits;
  return new HouseLists({ directory, clock, ids: randomIds, pinCost: PIN_COST, pinLength, endSignIns });
}

async function currencies(directory: Directory): Promise<void> {
  const dates = await directory.currencies.dates();
  const people = await directory.people();
  for (const { body } of await directory.register.all("currency")) {
    const needed = POSTS.flatMap((post) => (body.needs[post] ? [`${post} ${body.needs[post]}`] : []));
    const recency = body.recencyDays === null ? "" : `, a start counts ${body.recencyDays} days`;
    const rehearsed = body.rehearsalDays ? `, a rehearsal counts ${body.rehearsalDays} days` : "";
    const asked = body.retired ? "asked no longer" : needed.join(", ") || "needed at no post";
    console.log(`${body.id.padEnd(16)} ${body.name}: ${asked}${recency}${rehearsed}`);
    for (const { personId, kind, until } of dates)
      if (kind === body.id)
        console.log(`${"".padEnd(16)} ${people.find((p) => p.id === personId)?.handle} until ${until}`);
  }
}

/** Returns the command that renames the house. The verb's place holds the name. */
function rename(name: string, more: readonly string[]) {
  if (process.argv[3] === undefined || more.length > 0) throw new StartRefused(USAGE);
  return async (directory: Directory) => {
    const { body, revision } = await houseOf(directory);
    const to = { ...body, name: checked(line(60).safeParse(name), USAGE) };
    await changeHouse({ directory, clock }, BY, to, revision);
    console.log(`the house is called ${to.name}`);
  };
}

async function missing(directory: Directory): Promise<void> {
  for (const { step, done } of await stepsOf(directory, async () => 0))
    if (step !== "plan") console.log(`${done ? "done   " : "missing"}  ${STEPS[step]}`);
}

async function link(directory: Directory): Promise<void> {
  const first = new FirstRun({ directory, clock, ids: randomIds, pinCost: PIN_COST, demo: config.demo });
  if (config.demo)
    throw new StartRefused(
      "the demo is on here, so its people sign in: set CHOCKSIDE_DEMO=off for this command as for the server",
    );
  if (!(await first.isOpen())) throw new StartRefused("there is a supervisor: sign in at the panels");
  const { code } = await first.code();
  const scheme = config.tls.is === "off" ? "http" : "https";
  console.log("Open this within 60 minutes on the device that begins:");
  console.log(`    ${config.origins[0] ?? `${scheme}://localhost:${config.port}`}/first#${code}`);
}

async function people(directory: Directory): Promise<void> {
  for (const { handle, name, mayHold, active } of await directory.people())
    console.log(
      `${handle.padEnd(12)} ${name}: ${mayHold.join(", ") || "no post"}${active ? "" : ", stopped"}`,
    );
}

async function addOne(directory: Directory, [handle, name, posts, ...more]: string[]): Promise<void> {
  if (!handle || !name || !posts || more.length > 0) throw new StartRefused(USAGE);
  const entered = { handle, name, mayHold: posts.split(","), pin: await enteredLine() };
  const person = checked(newPersonSchema(config.limits.pinLength).safeParse(entered), USAGE);
  await addPerson({ directory, clock, ids: randomIds, pinCost: PIN_COST }, person);
  console.log(`${person.name} may sign in as ${person.handle} and hold ${person.mayHold.join(", ")}`);
}

async function setPosts(directory: Directory, [handle, posts, ...more]: string[]): Promise<void> {
  if (!handle || !posts || more.length > 0) throw new StartRefused(USAGE);
  const mayHold = checked(mayHoldSchema.safeParse(posts.split(",")), USAGE);
  const person = await directory.personByHandle(handle.toLowerCase());
  if (!person) throw new StartRefused(`there is nobody with the handle ${handle}`);
  const loses = await losesPosts(directory, person.id, mayHold);
  await directory.setPerson(person.id, { ...person, mayHold });
  if (loses) await directory.revokeSignIns({ personId: person.id }, Date.now());
  console.log(
    `${person.name} may hold ${mayHold.join(", ")}${loses ? "; all their sign-ins have ended" : ""}`,
  );
}

async function types(directory: Directory): Promise<void> {
  const stored = await directory.storedTypes();
  for (const { id, version, name, status } of await directory.types()) {
    console.log(`${id.padEnd(20)} version ${version}  ${status}  ${name}`);
    const note = stored.find((t) => t.id === id && t.version === version)?.seal?.note;
    if (note !== undefined) console.log(`${"".padEnd(20)} seal ${sha256(note)}`);
  }
}

async function aircraft(directory: Directory): Promise<void> {
  for (const { entry, typeName, bar } of await new AircraftRegister(directory, clock).list()) {
    const { id, name, typeVersion } = entry.body;
    const can = bar === null ? "can be planned" : barWords(bar);
    console.log(`${id.padEnd(12)} ${name}, ${typeName} version ${typeVersion}: ${can}`);
  }
}

async function addAircraft(directory: Directory, [id, name, typeId, ...more]: string[]): Promise<void> {
  if (!id || !name || !typeId || more.length > 0) throw new StartRefused(USAGE);
  const typeVersion = newestApproved(typeId, await directory.types()) ?? 1;
  const entered = checked(
    houseAircraftSchema.safeParse(bareAircraft({ id, name, typeId, typeVersion })),
    USAGE,
  );
  await new AircraftRegister(directory, clock).add(BY, entered);
  console.log(`${id} is in the register, on version ${typeVersion} of ${typeId}`);
}

async function retire(directory: Directory, [id, why, ...more]: string[]): Promise<void> {
  if (!id || !why || more.length > 0) throw new StartRefused(USAGE);
  const register = new AircraftRegister(directory, clock);
  const { entry } = await register.one(id);
  await register.retire(BY, id, entry.revision, true, checked(line(200).safeParse(why), USAGE));
  console.log(`${id} is retired: it stays in the register and is not planned`);
}
