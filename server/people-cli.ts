// npm run people -- <handle> "<name>" <post,post…>: adds a person; the PIN is read from standard
// input.
// -- pin <handle>: replaces a forgotten PIN, also from standard input.
// -- export <handle>: prints all data about a person as JSON.
// -- erase <handle>: erases a person.
// Stop the server first when it uses the same file; with PostgreSQL it may run.
import { addPerson, mayHoldSchema, newPersonSchema } from "./auth/new-person.ts";
import { newPinSchema } from "./auth/new-pin.ts";
import { resetPin } from "./auth/people.ts";
import { hashPin, PIN_COST } from "./auth/pin.ts";
import { OfficeRefused } from "./auth/refused.ts";
import { readConfig } from "./config.ts";
import { enteredLine } from "./entered-line.ts";
import { randomIds } from "./ids.ts";
import { erase } from "./personal/erase.ts";
import { personalDataOf } from "./personal/personal-data.ts";
import { StartRefused } from "./start-refused.ts";
import { openStores } from "./store/stores.ts";

const USAGE = `usage: echo "$PIN" | npm run people -- <handle> "<name>" <posts>
  posts: one or more of cockpit, fireGuard, groundPower, supervisor, with commas between
       echo "$PIN" | npm run people -- pin <handle>   replaces a forgotten PIN
       npm run people -- export <handle>    all data about one person, as JSON
       npm run people -- erase <handle>     erases a person; the evidence stays intact, without the name`;

const entrySchema = (pinLength: number) =>
  newPersonSchema(pinLength).extend({ mayHold: mayHoldSchema.min(1) });

await main().catch((error: unknown) => {
  console.error(
    error instanceof StartRefused || error instanceof OfficeRefused ? `chockside: ${error.message}` : error,
  );
  process.exit(1);
});

async function main(): Promise<void> {
  const { pinLength } = readConfig(process.env).limits;
  const [verb, whose, ...others] = process.argv.slice(2);
  if (isVerb(verb) && whose !== undefined && others.length === 0)
    return about(verb, whose.toLowerCase(), pinLength);
  const [handle, name, posts, ...more] = process.argv.slice(2);
  if (!handle || !name || !posts || more.length > 0) throw new StartRefused(USAGE);
  const pin = await enteredLine();
  const entered = { handle, name, mayHold: posts.split(","), pin };
  const entry = entrySchema(pinLength).safeParse(entered);
  if (!entry.success) {
    const faults = entry.error.issues.map((i) => `${i.path.join(".")} ${i.message}`);
    throw new StartRefused(`${faults.join("; ")}\n${USAGE}`);
  }
  const stores = await openStores(readConfig(process.env), Date.now());
  const { directory } = stores;
  const person = entry.data;
  const deps = { directory, clock: { now: Date.now }, ids: randomIds, pinCost: PIN_COST };
  await addPerson(deps, person);
  await stores.close();
  console.log(`${person.name} may sign in as ${person.handle} and hold ${person.mayHold.join(", ")}`);
}

function isVerb(word: string | undefined): word is "pin" | "export" | "erase" {
  return word === "pin" || word === "export" || word === "erase";
}

async function about(verb: "pin" | "export" | "erase", handle: string, pinLength: number): Promise<void> {
  const pin = verb === "pin" ? newPinSchema(pinLength).safeParse(await enteredLine()) : null;
  if (pin?.error) throw new StartRefused(pin.error.issues.map((i) => `pin ${i.message}`).join("; "));
  const stores = await openStores(readConfig(process.env), Date.now());
  const { store, directory, compact } = stores;
  const person = await directory.personByHandle(handle);
  if (!person) throw new StartRefused(`there is nobody with the handle ${handle}`);
  if (pin) {
    await resetPin(directory, person.id, await hashPin(pin.data), Date.now());
    console.log(
      `${handle} can sign in with the new PIN and should then choose another; all their sign-ins have ended`,
    );
  } else if (verb === "export")
    console.log(JSON.stringify(await personalDataOf(store, directory, person), null, 2));
  else {
    const left = await erase(store, directory, person);
    await compact();
    console.log(`${handle} was erased. Earlier backups and exports still contain the name.`);
    const own = (await directory.pictures.rows()).filter((p) => p.personId === person.id);
    if (own.length > 0)
      console.log(`${own.length} pictures that they sent are kept: look whether they are to be seen in one`);
    for (const { session, seq } of left)
      console.log(
        `event ${seq} of session ${session} contains the name in its text: only removing that record removes it`,
      );
  }
  await stores.close();
}
