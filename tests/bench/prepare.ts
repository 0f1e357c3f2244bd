import { randomUUID } from "node:crypto";
import { demo } from "../../seed/demo-data.ts";
import { panelSocket } from "./panel-socket.ts";

/** Plans a session of an aircraft at a place of its own. Returns the session's id. */
export async function planSession(
  url: string,
  token: string,
  aircraft: string,
  place: string,
): Promise<string> {
  const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
  const response = await fetch(`${url}/api/sessions`, {
    method: "POST",
    headers: { "content-type": "application/json", authorization: `Bearer ${token}` },
    body: JSON.stringify({ commandId: randomUUID(), aircraft, place, powerSource: "groundPower", crew }),
  });
  if (!response.ok) throw new Error(`planning: ${response.status} ${await response.text()}`);
  const { id = "" } = (await response.json()) as { id?: string };
  return id;
}

/** Plans a session for each token and gives its person the cockpit. */
export async function planSessions(url: string, tokens: readonly string[]): Promise<string[]> {
  const sessions: string[] = [];
  for (const token of tokens) {
    const session = await planSession(url, token, demo.aircraft[0]?.id ?? "", "Bench");
    const socket = panelSocket(url, token);
    const action = { type: "claimPost", post: "cockpit" };
    const command = { v: 1, id: randomUUID(), session, clientAt: Date.now(), action };
    const answer = await socket.timeout(10_000).emitWithAck("command", command);
    if (answer.status !== "accepted") throw new Error(`claiming the cockpit: ${JSON.stringify(answer)}`);
    socket.close();
    sessions.push(session);
  }
  return sessions;
}
