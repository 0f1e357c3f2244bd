import type { RehearsalScript } from "../rehearsal/script.ts";

/** The moment of another rehearsal at which a rehearsal begins. */
export interface TakenBack {
  /** Id of that rehearsal. */
  session: string;
  /** The last of its events that is retold here, under the same number. */
  seq: number;
  /** Milliseconds by which the retold events are dated later than there. */
  later: number;
}

/** The part of a session's plan that makes it a rehearsal: no real aircraft, and nothing of it counts as a start. */
export interface Rehearsal {
  /** Draws everything that the simulation and the script leave to chance. */
  seed: number;
  /** The script that decides what goes wrong. */
  script: string;
  /** The registration of the aircraft that is rehearsed. */
  of: string;
  /** The script itself, so that the record alone tells what was to happen. Absent in older records. */
  played?: RehearsalScript | undefined;
  /** Absent: it begins with a cold aircraft. */
  back?: TakenBack | undefined;
}

/**
 * Begins the id of every rehearsal, and of nothing else. So each event, each command, each checkpoint and each export
 * says by itself that it belongs to a rehearsal.
 */
export const REHEARSAL_ID = "rehearsal-";

/** Begins the name of every rehearsed aircraft, and of no aircraft of a house's register. */
export const REHEARSED_AIRCRAFT = "REHEARSAL-";

/** Begins the code by which people join a rehearsal. */
export const REHEARSAL_CODE = "R-";

/** Begins the id of every simulated partner; no person of a house has such an id. */
export const PARTNER_ID = "partner.";

export const isPartner = (person: string): boolean => person.startsWith(PARTNER_ID);

/** Longest part of a registration in the name of a rehearsed aircraft: with its marks it is a plain identifier. */
const REGISTRATION = 40;

export const isRehearsalId = (session: string): boolean => session.startsWith(REHEARSAL_ID);

export const isRehearsedAircraft = (aircraft: string): boolean =>
  aircraft.toUpperCase().startsWith(REHEARSED_AIRCRAFT);

/**
 * Returns the name under which one rehearsal knows its aircraft. It is that rehearsal's own: the record of the real
 * aircraft, and that of another rehearsal of it, stand under other names.
 */
export function rehearsedAircraft(registration: string, code: string): string {
  return `${REHEARSED_AIRCRAFT}${registration.slice(0, REGISTRATION)}.${code.slice(REHEARSAL_CODE.length)}`;
}

/**
 * Returns why a first event must not be believed: it says that it is a rehearsal in one place and not in another. Null
 * when all say the same.
 */
export function rehearsalFault(
  session: string,
  { aircraft, rehearsal }: { aircraft: string; rehearsal?: Rehearsal | undefined },
): string | null {
  const is = rehearsal !== undefined;
  if (isRehearsalId(session) !== is)
    return is ? "a rehearsal under the id of a start" : "a start under the id of a rehearsal";
  if (isRehearsedAircraft(aircraft) !== is)
    return is ? "a rehearsal names a real aircraft" : "a start names a rehearsed aircraft";
  if (rehearsal?.back && !isRehearsalId(rehearsal.back.session)) return "a rehearsal taken back from a start";
  return null;
}
