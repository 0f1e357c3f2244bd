import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { seedDemo } from "../../server/demo.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import { cleared, facts, readBack, readItBack, saysNoClearance, sent, voids } from "./clearanceSteps.ts";
import { signInCrew } from "./crew.ts";
import { patientType } from "./patientType.ts";
import { Prompter } from "./prompter.ts";
import { openBrowser } from "./seat.ts";

/** Fills a new database with the demo before the server would: a clearance must not expire while the test works. */
async function seedPatient(file: string): Promise<void> {
  openDatabase(file, Date.now()).close();
  const directory = await PrismaDirectory.open(file);
  const types = demo.types.map((type) => patientType(type));
  await seedDemo(directory, { ...demo, types }, Date.now(), { memoryCost: 8, timeCost: 1, parallelism: 1 });
  await directory.close();
}

it("[PAN-8] [PAN-10] [PWA-5] [CLR-7] [CLR-14] a server killed in mid-clearance: every panel says hold, the hold given then is heard once, and nothing is clear when it is back", async () => {
  prepareServer();
  const browser = await openBrowser();
  const folder = mkdtempSync(join(tmpdir(), "chockside-killed-"));
  const file = join(folder, "chockside.db");
  await seedPatient(file);
  let running = await ServerProcess.start(file);
  const { url } = running;
  const others = await signInCrew(browser, url);
  const { cockpit, guard, supervisor, all } = others;
  const story = await Prompter.begin(others, { url, now: Date.now }, "QX-PEN");
  await story.playUntil(cleared);
  await readItBack(cockpit);
  await story.until(readBack);
  try {
    await running.kill();
    for (const seat of all) await seat.sees(/^Offline, last heard .* ago\. Hold\./);
    expect(await cockpit.page.getByRole("button", { name: "Starter engaged" }).isDisabled()).toBe(true);
    await guard.press("Hold");
    await guard.sees("Sending… not yet heard by anyone. Use the hand signal.");

    running = await ServerProcess.start(file, { PORT: new URL(url).port });
    for (const seat of all) await saysNoClearance(seat);
    await supervisor.sees("The server started again: clearances and permissions are void");
    for (const seat of [cockpit, supervisor]) await seat.answer("Hold. Stop all new action.", "Received");
    await guard.asked("Your hold is on. Release it when it is safe.");

    const read = await fetch(`${url}/api/sessions/${story.session}/events?since=0&limit=500`, {
      headers: { authorization: `Bearer ${await supervisor.token()}` },
    });
    const { events } = (await read.json()) as { events: SessionEvent[] };
    expect(voids(events)).toEqual(["epoch"]);
    expect(sent(events, "hold")).toBe(1);
    expect(sent(events, "cranking")).toBe(0);
    expect(facts(events).filter((f) => f.type === "restarted")).toHaveLength(1);
  } finally {
    story.close();
    await browser.close();
    await running.kill();
    rmSync(folder, { recursive: true, force: true });
  }
});
