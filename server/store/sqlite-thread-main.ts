import { parentPort, receiveMessageOnPort, workerData } from "node:worker_threads";
import { openHandle } from "./open.ts";
import type { DatabaseFile, WriteReply, WriteRequest } from "./sqlite-thread.ts";
import { SqliteWriter } from "./sqlite-writer.ts";

/** Main file of the writer thread. Writes that arrive during a flush share the next one. */
const port = parentPort;
if (!port) throw new Error("this is a thread of a server's");
const { file, identity } = workerData as DatabaseFile;
const db = openHandle(file);
const writer = new SqliteWriter(db, identity ?? undefined);

port.on("message", (first: WriteRequest | null) => {
  const given: WriteRequest[] = [];
  let next: WriteRequest | null | undefined = first;
  while (next) {
    given.push(next);
    next = receiveMessageOnPort(port)?.message as WriteRequest | null | undefined;
  }
  if (given.length > 0) {
    const outcomes = writer.write(given.flatMap(({ group }) => group));
    const answers: WriteReply[] = given.map(({ number, group }) => ({
      number,
      outcomes: outcomes.splice(0, group.length),
    }));
    port.postMessage(answers);
  }
  if (next !== null) return;
  db.close();
  port.close();
});
