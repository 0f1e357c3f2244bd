/** Time of day by the server, UTC. */
export const timeOfDay = (ms: number | null) =>
  ms === null ? null : new Date(ms).toISOString().slice(11, 19);

/** Day and time of day, UTC. */
export const dayAndTime = (ms: number) => new Date(ms).toISOString().slice(0, 19).replace("T", " ");
