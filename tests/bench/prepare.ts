import { randomUUID } from "node:crypto";
import { io } from "socket.io-client";
import { demo } from "../../seed/demo-data.ts";

/** Signs a demo person in and plans sessions in which that person holds the cockpit. */
export async function planSessions(
  url: string,
  count: number,
): Promise<{ token: string; sessions: string[] }> {
  const person = demo.people.find((p) => p.mayHold.includes("cockpit"));
  const aircraft = demo.aircraft[0];
  if (!person || !aircraft) throw new Error("the demo has nobody for the cockpit, or no aircraft");
  const post = async (path: string, body: object, token?: string) => {
    const response = await fetch(`${url}/api${path}`, {
      method: "POST",
      headers: { "content-type": "application/json", ...(token ? { authorization: `Bearer ${token}` } : {}) },
      body: JSON.stringify(body),
    });
    if (!response.ok) throw new Error(`${path}: ${response.status} ${await response.text()}`);
    return (await response.json()) as Record<string, string>;
  };
  const device = { id: randomUUID(), name: "bench" };
  const { token = "" } = await post("/sign-in", { handle: person.handle, pin: person.pin, device });
  const socket = io(url, { path: "/live", transports: ["websocket"], auth: { token, proto: 1 } });
  const sessions: string[] = [];
  for (let i = 0; i < count; i += 1) {
    const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const planned = await post(
      "/sessions",
      { commandId: randomUUID(), aircraft: aircraft.id, place: "Bench", powerSource: "groundPower", crew },
      token,
    );
    const session = planned.id ?? "";
    const action = { type: "claimPost", post: "cockpit" };
    const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
    let answer = await socket.timeout(10_000).emitWithAck("command", command);
    // The socket's own limit on messages holds here too.
    while (answer.error === "tooMany") {
      await new Promise((r) => setTimeout(r, 200));
      answer = await socket.timeout(10_000).emitWithAck("command", command);
    }
    if (answer.status !== "accepted") throw new Error(`claiming the cockpit: ${JSON.stringify(answer)}`);
    sessions.push(session);
  }
  socket.close();
  return { token, sessions };
}
