/** An event of the same size as the product's. */
export function eventOf(
  command: { id: string; session: string; clientAt: number; action: object },
  seq: number,
) {
  return {
    v: 1,
    session: command.session,
    seq,
    at: Date.now(),
    actor: { kind: "person", id: "p-bench", name: "Bench Person", post: "cockpit", device: "d-bench" },
    command: command.id,
    digest: "0".repeat(64),
    clientAt: command.clientAt,
    cause: null,
    fact: { ...command.action, type: "sent" },
  };
}
