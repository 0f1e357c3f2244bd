/** A moment to the minute, UTC. */
export const minute = (at: number): string => new Date(at).toISOString().slice(0, 16).replace("T", " ");
