// npm run people -- <handle> "<name>" <post,post…> [current until]: adds a person; the PIN is read from standard
// input.
// -- pin <handle>: replaces a forgotten PIN, also from standard input.
// -- export <handle>: prints all data about a person as JSON.
// -- erase <handle>: erases a person.
// Stop the server first when it uses the same file; with PostgreSQL it may run.
import { z } from "zod";
import { postSchema } from "../shared/protocol/enums.ts";
import { idSchema, line } from "../shared/protocol/text.ts";
import { newPinSchema } from "./auth/new-pin.ts";
import { resetPin } from "./auth/people.ts";
import { hashPin } from "./auth/pin.ts";
import { skeleton } from "./auth/skeleton.ts";
import { readConfig } from "./config.ts";
import { randomIds } from "./ids.ts";
import { erase } from "./personal/erase.ts";
import { personalDataOf } from "./personal/personal-data.ts";
import { StartRefused } from "./start-refused.ts";
import { openStores } from "./store/stores.ts";

const USAGE = `usage: echo "$PIN" | npm run people -- <handle> "<name>" <posts> [<current until>]
  posts: one or more of cockpit, fireGuard, groundPower, supervisor, with commas between
  current until: the last day the person is current for duty, such as 2027-03-31; leave out to keep no date
       echo "$PIN" | npm run people -- pin <handle>   replaces a forgotten PIN
       npm run people -- export <handle>    all data about one person, as JSON
       npm run people -- erase <handle>     erases a person; the evidence stays intact, without the name`;

const entrySchema = (pinLength: number) =>
  z.object({
    handle: z.string().toLowerCase().pipe(idSchema),
    name: line(80),
    mayHold: z.array(postSchema).min(1),
    /** The end of that day, UTC. */
    currentUntil: z.iso
      .date()
      .transform((day) => Date.parse(day) + 24 * 3_600_000)
      .nullable(),
    pin: newPinSchema(pinLength),
  });

await main().catch((error: unknown) => {
  console.error(error instanceof StartRefused ? `chockside: ${error.message}` : error);
  process.exit(1);
});

async function main(): Promise<void> {
  const { pinLength } = readConfig(process.env).limits;
  const [verb, whose, ...others] = process.argv.slice(2);
  if (isVerb(verb) && whose !== undefined && others.length === 0)
    return about(verb, whose.toLowerCase(), pinLength);
  const [handle, name, posts, day = null, ...more] = process.argv.slice(2);
  if (!handle || !name || !posts || more.length > 0) throw new StartRefused(USAGE);
  const pin = await enteredPin();
  const entered = { handle, name, mayHold: posts.split(","), currentUntil: day, pin };
  const entry = entrySchema(pinLength).safeParse(entered);
  if (!entry.success) {
    const faults = entry.error.issues.map((i) => `${i.path.join(".")} ${i.message}`);
    throw new StartRefused(`${faults.join("; ")}\n${USAGE}`);
  }
  const stores = await openStores(readConfig(process.env), Date.now());
  const { directory } = stores;
  const { pin: secret, ...person } = entry.data;
  if (await directory.personByHandle(person.handle))
    throw new StartRefused(`${person.handle} is there already`);
  const namesake = (await directory.people()).find(
    (p) => p.active && skeleton(p.name) === skeleton(person.name),
  );
  if (namesake)
    throw new StartRefused(
      `${namesake.handle} is called ${namesake.name}, which looks like ${person.name}: add what tells them apart`,
    );
  const pinHash = await hashPin(secret);
  await directory.addPeople([
    { ...person, id: randomIds.person(), pinHash, active: true, createdAt: Date.now(), demo: false },
  ]);
  await stores.close();
  console.log(`${person.name} may sign in as ${person.handle} and hold ${person.mayHold.join(", ")}`);
}

function isVerb(word: string | undefined): word is "pin" | "export" | "erase" {
  return word === "pin" || word === "export" || word === "erase";
}

async function about(verb: "pin" | "export" | "erase", handle: string, pinLength: number): Promise<void> {
  const pin = verb === "pin" ? newPinSchema(pinLength).safeParse(await enteredPin()) : null;
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
    for (const { session, seq } of left)
      console.log(
        `event ${seq} of session ${session} contains the name in its text: only removing that record removes it`,
      );
  }
  await stores.close();
}

/** Returns standard input, trimmed. */
async function enteredPin(): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(part as Buffer);
  return Buffer.concat(parts).toString("utf8").trim();
}
