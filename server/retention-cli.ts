// npm run retention: lists what is past its retention period. -- remove: removes it, with a signed record of each.
// -- removed: prints those records. Stop the server first when it uses the same file.
import { readConfig } from "./config.ts";
import { openSigner } from "./evidence/signer.ts";
import { type Expired, expired, expiredSignIns } from "./retention/expired.ts";
import { type ExpiredPicture, expiredPictures } from "./retention/expired-pictures.ts";
import { remove, removePicture } from "./retention/remove.ts";
import { StartRefused } from "./start-refused.ts";
import { openStores } from "./store/stores.ts";

const USAGE = `usage: npm run retention                lists what is past its retention period
       npm run retention -- remove      removes it; export what you want to keep first
       npm run retention -- removed     prints the signed records of removals`;

await main().catch((error: unknown) => {
  console.error(error instanceof StartRefused ? `chockside: ${error.message}` : error);
  process.exit(1);
});

async function main(): Promise<void> {
  const [verb = "list", ...more] = process.argv.slice(2);
  if (!["list", "remove", "removed"].includes(verb) || more.length > 0) throw new StartRefused(USAGE);
  const config = readConfig(process.env);
  const now = Date.now();
  const { store, directory, openIndex, compact, close } = await openStores(config, now);
  if (verb === "removed") for (const { note } of await store.removals()) console.log(note);
  else {
    const found = await expired(store, directory, config.periods, now);
    for (const one of found) console.log(`${verb === "remove" ? "removed" : "past"}: ${saysOf(one)}`);
    const signIns = await expiredSignIns(directory, config.periods.signIns, now);
    if (signIns.length > 0)
      console.log(`${verb === "remove" ? "removed" : "past"}: ${signIns.length} sign-ins that are over`);
    const pictures = await expiredPictures(store, directory.pictures, config.periods.pictures, now);
    for (const one of pictures) console.log(`${verb === "remove" ? "removed" : "past"}: ${pictureSays(one)}`);
    const count = found.length + signIns.length + pictures.length;
    if (verb === "remove") {
      const deps = { store, directory, signer: openSigner(config.signingKey), periods: config.periods };
      const index = await openIndex();
      for (const one of found) {
        const { id } = await remove(deps, one, now);
        if ("session" in one) await index.forget(id);
      }
      await index.close();
      for (const one of pictures) await removePicture(deps, one, now);
      await directory.personal.forgetSignIns(signIns);
      if (count > 0) await compact();
    }
    console.log(`${count} ${verb === "remove" ? "removed" : "past their retention period"}`);
  }
  await close();
}

function pictureSays({ sha256, aircraft, no, until }: ExpiredPicture): string {
  const what = `picture ${sha256} of defect ${no} of ${aircraft}`;
  if (until === null) return `${what}, left over: no record names it as kept`;
  return `${what}, kept to ${new Date(until).toISOString().slice(0, 10)}`;
}

function saysOf(one: Expired): string {
  const until = new Date(one.until).toISOString().slice(0, 10);
  if ("person" in one) return `${one.person.handle}, who may not sign in any more, kept to ${until}`;
  const { id, aircraft, place, headSeq } = one.session;
  return `session ${id} of ${aircraft} at ${place}, ${headSeq} events, kept as ${one.kept} to ${until}`;
}
