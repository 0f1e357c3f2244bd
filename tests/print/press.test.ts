import { afterEach, describe, expect, it } from "vitest";
import { PRESS, Press, type Printer, type SheetOrder } from "../../server/print/press.ts";

const order = (key: string, events = 0, whole = true): SheetOrder => ({
  key,
  events,
  whole,
  async *lines() {
    yield key;
  },
});

/** A printer that ends each sheet when the test says so, and counts them. */
class HandPrinter implements Printer {
  readonly begun: string[] = [];
  most = 0;
  readonly #open: { done(bytes: Buffer): void; failed(error: Error): void }[] = [];

  async print(lines: AsyncIterable<string>): Promise<Buffer> {
    let text = "";
    for await (const line of lines) text += line;
    this.begun.push(text);
    return new Promise<Buffer>((done, failed) => {
      this.#open.push({ done, failed });
      this.most = Math.max(this.most, this.#open.length);
    }).then(() => Buffer.from(text));
  }

  /** Ends the oldest sheet under way and lets the next begin. */
  async end(error?: Error): Promise<void> {
    const one = this.#open.shift();
    if (error) one?.failed(error);
    else one?.done(Buffer.alloc(0));
    for (let n = 0; n < 5; n += 1) await new Promise((r) => setImmediate(r));
  }

  close(): void {}
}

const turn = () => new Promise((r) => setImmediate(r));
/** Returns the end of each sheet: "made", or the problem's name. */
const ends = (all: Promise<Buffer>[]) =>
  Promise.all(
    all.map((one) =>
      one.then(
        () => "made",
        (e: { kind: string }) => e.kind,
      ),
    ),
  );

describe("the press", () => {
  const faults: unknown[] = [];
  let now = 0;
  const pressOf = (printer: Printer) =>
    new Press(
      printer,
      () => now,
      (error) => faults.push(error),
    );
  afterEach(() => {
    faults.length = 0;
    now = 0;
  });

  it("[PRN-15] prints one at a time, refuses what one person piles up, and takes another's turn between", async () => {
    const printer = new HandPrinter();
    const press = pressOf(printer);
    const sixty = Array.from({ length: 60 }, (_, n) => press.print("ada", order(`ada ${n}`)));
    const ended = ends(sixty);
    await turn();
    const bo = press.print("bo", order("bo"));
    await turn();
    for (let n = 0; n < 10; n += 1) await printer.end();
    await bo;
    const answers = await ended;
    expect(answers.filter((a) => a === "made")).toHaveLength(1 + PRESS.perPerson);
    expect(answers.filter((a) => a === "tooMany")).toHaveLength(59 - PRESS.perPerson);
    expect(printer.begun.slice(0, 2)).toEqual(["ada 0", "bo"]);
    expect(printer.most).toBe(1);
  });

  it("[PRN-15] takes no more in all than can wait", async () => {
    const printer = new HandPrinter();
    const press = pressOf(printer);
    const all = ends(Array.from({ length: 60 }, (_, n) => press.print(`person ${n}`, order(`${n}`))));
    await turn();
    for (let n = 0; n < 60; n += 1) await printer.end();
    expect((await all).filter((a) => a === "notAvailable")).toHaveLength(59 - PRESS.waiting);
  });

  it("[PRN-15] lets no brief wait for a long record", async () => {
    const printer = new HandPrinter();
    const press = pressOf(printer);
    const long = [press.print("ada", order("long", 11_000)), press.print("bo", order("longer", 11_001))];
    await turn();
    const brief = press.print("cy", order("brief"));
    await turn();
    expect(printer.begun).toEqual(["long", "brief"]);
    for (let n = 0; n < 3; n += 1) await printer.end();
    await Promise.all([...long, brief]);
    expect(printer.most).toBe(2);
  });

  it("[PRN-15] makes one sheet for all who ask for the same, keeps it ten minutes, and no more than it has room for", async () => {
    const printer = new HandPrinter();
    const press = pressOf(printer);
    const both = [press.print("ada", order("same")), press.print("bo", order("same"))];
    await turn();
    await printer.end();
    expect((await Promise.all(both)).map(String)).toEqual(["same", "same"]);
    now = PRESS.keptMs - 1;
    expect(String(await press.print("cy", order("same")))).toBe("same");
    expect(printer.begun).toEqual(["same"]);
    now = 2 * PRESS.keptMs;
    const anew = press.print("cy", order("same"));
    await turn();
    await printer.end();
    await anew;
    expect(printer.begun).toEqual(["same", "same"]);
    const heavy: Printer = { print: async () => Buffer.alloc(PRESS.keptBytes / 4), close() {} };
    const calls: string[] = [];
    const full = pressOf({
      ...heavy,
      print: (lines) => {
        calls.push("made");
        return heavy.print(lines);
      },
    });
    for (let n = 0; n < 6; n += 1) await full.print("ada", order(`${n}`));
    await full.print("ada", order("5"));
    expect(calls).toHaveLength(6);
    await full.print("ada", order("0"));
    expect(calls).toHaveLength(7);
  });

  it("[PRN-15] says what to do when a sheet fails, or is too long for paper, and goes on", async () => {
    const printer = new HandPrinter();
    const press = pressOf(printer);
    const bad = ends([press.print("ada", order("bad"))]);
    await turn();
    const good = press.print("ada", order("good"));
    await printer.end(new Error("ended with SIGKILL"));
    expect(await bad).toEqual(["notAvailable"]);
    await printer.end();
    expect(String(await good)).toBe("good");
    expect(String(faults[0])).toContain("SIGKILL");
    await expect(press.print("ada", order("huge", PRESS.events + 1))).rejects.toMatchObject({
      kind: "tooLarge",
    });
    // The short form of the same record is printed.
    const short = press.print("ada", order("huge, short", PRESS.events + 1, false));
    await turn();
    await printer.end();
    expect(String(await short)).toBe("huge, short");
  });
});
