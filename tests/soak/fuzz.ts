import { planned, signIn } from "../http/test-server.ts";
import { HOLD, liveServer, panelOf } from "../live/panel.ts";
import { fuzz } from "../security/fuzz.ts";
import { Chance } from "../sim/chance.ts";

/** A new session starts after this many frames, because refused commands stay on the record. */
const PER_SESSION = 20_000;

/**
 * Sends this many malformed frames, and a tenth as many requests, to a server on loopback. Returns true without
 * faults.
 */
export async function fuzzSoak(frames: number, seed: number): Promise<boolean> {
  const server = await liveServer();
  const chance = new Chance(seed);
  const faults: string[] = [];
  let cut = 0;
  const heaps: number[] = [];
  for (let done = 0; done < frames; done += PER_SESSION) {
    const session = (await planned(server.app, await signIn(server.app, "fay"))).id;
    const size = Math.min(PER_SESSION, frames - done);
    const pause = () => server.hand.pass(3_000);
    const run = await fuzz(server.app, server.url, session, {
      frames: size,
      requests: size / 10,
      chance,
      pause,
    });
    cut += run.cut;
    faults.push(...run.faults);
    const bo = await panelOf(server, "bo");
    const answer = await bo.command(session, HOLD);
    bo.close();
    if (answer.status !== "accepted")
      faults.push(`a hold after ${done + size} frames: ${JSON.stringify(answer)}`);
    if ((done / PER_SESSION) % 5 !== 4) continue;
    heaps.push(Math.round(process.memoryUsage().heapUsed / 1e6));
    console.log(`${done + size} frames, ${cut} sockets cut, heap ${heaps.at(-1)} MB`);
  }
  const [early, late] = [heaps.slice(0, heaps.length / 2), heaps.slice(heaps.length / 2)];
  // Garbage collection varies between looks, but a heap that leaks no longer has low moments.
  if (early.length > 1 && Math.min(...late) > Math.max(...early))
    faults.push(`the heap grew: ${heaps.join(", ")} MB`);
  for (const fault of faults.slice(0, 50)) console.log(`FAULT ${fault}`);
  console.log(
    `seed ${seed}: ${frames} frames, ${frames / 10} requests, ${cut} sockets cut, ${faults.length} faults`,
  );
  await server.close();
  return faults.length === 0;
}
