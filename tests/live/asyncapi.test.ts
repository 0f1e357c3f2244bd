import { afterEach, beforeEach, expect, it } from "vitest";
import { SENT } from "../../server/live/asyncapi.ts";
import { planned, signIn } from "../http/test-server.ts";
import { GatedStore } from "./gated-store.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "./panel.ts";

let server: LiveServer;
let panel: TestPanel;
beforeEach(async () => {
  server = await liveServer({ store: new GatedStore() });
});
afterEach(async () => {
  panel.close();
  await server.close();
});

it("[INT-26] describes every message of the socket, and what the server really sends fits its schema", async () => {
  const { body } = await server.app.inject({ url: "/docs/asyncapi.json" });
  const { asyncapi, channels, operations } = JSON.parse(body);
  expect(asyncapi).toBe("3.0.0");
  const { messages } = channels.live;
  expect(Object.keys(messages).sort()).toEqual(
    [...Object.keys(SENT), "command", "watch", "unwatch", "time"].sort(),
  );
  for (const { messages: used } of Object.values<{ messages: { $ref: string }[] }>(operations))
    for (const { $ref } of used) expect(messages).toHaveProperty($ref.split("/").at(-1) ?? "");
  expect(messages.command.payload.required).toContain("action");

  const { id } = await planned(server.app, await signIn(server.app, "di"));
  panel = await panelOf(server, "di");
  const heard: [name: string, value: unknown][] = [];
  panel.socket.onAny((name: string, value: unknown) => heard.push([name, value]));
  await panel.watch(id);
  await panel.command(id, { type: "claimPost", post: "supervisor" });
  await panel.command(id, HOLD);
  await server.hand.pass(2_000);
  await panel.until(() => heard.some(([name]) => name === "beat"));
  await server.services.signIns.endAll({ personId: "di" });
  await panel.until(() => heard.some(([name]) => name === "bye"));
  expect(new Set(heard.map(([name]) => name))).toEqual(new Set(["events", "ramp", "beat", "bye"]));
  for (const [name, value] of heard) {
    const schema = SENT[name as keyof typeof SENT];
    if (schema === null) expect(value).toBeUndefined();
    else expect(schema.safeParse(value).error, name).toBeUndefined();
  }
});
