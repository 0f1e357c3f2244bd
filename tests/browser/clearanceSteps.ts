import { expect } from "vitest";
import { plain } from "../../shared/engine/life.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Seat } from "./seat.ts";

/** The first engine of the twin's order. */
export const N = 2;
export const READ_BACK = `Clear to start number ${N}. Read back: which engine?`;
export const STANDS = `You are cleared for number ${N}. Engage the starter.`;

export const life = (state: SessionState) => {
  const engine = state.engines.find((e) => e.n === N);
  return engine ? plain(engine.life) : null;
};
export const cleared = (state: SessionState) => life(state)?.is === "clear";
export const readBack = (state: SessionState) => {
  const now = life(state);
  return now?.is === "clear" && now.clearance.readBackAt !== null;
};

export async function readItBack(seat: Seat): Promise<void> {
  await seat.asked(READ_BACK);
  await seat.press("Read back", seat.page.locator(".ask"));
  await seat.press(`Engine number ${N}`);
  await seat.asked(STANDS);
}

export const facts = (events: readonly SessionEvent[]) => events.map((e) => e.fact);
export const voids = (events: readonly SessionEvent[]) =>
  facts(events).flatMap((f) => (f.type === "clearanceVoid" ? [f.cause] : []));
export const sent = (events: readonly SessionEvent[], kind: string) =>
  facts(events).filter((f) => f.type === "sent" && f.kind === kind).length;

/** Expects that the panel asks for nothing that needs a clearance. Older messages may still be shown below. */
export async function saysNoClearance(seat: Seat): Promise<void> {
  const asked = seat.page.locator(".ask h2, .queue-row, .ask-waits dd");
  const ofClearance = asked.filter({ hasText: /(Clear to start number|You are cleared)/ });
  await ofClearance.first().waitFor({ state: "detached" });
  expect(await seat.page.getByRole("button", { name: "Starter engaged" }).count()).toBe(0);
}
