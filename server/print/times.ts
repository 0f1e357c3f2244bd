import { timeOfDay as clock } from "../../shared/words/dates.ts";

/** Time of day by the server, UTC; nothing for no time. */
export const timeOfDay = (ms: number | null) => (ms === null ? null : clock(ms));
