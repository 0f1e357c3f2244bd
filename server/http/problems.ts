import { z } from "zod";

/** Problem details (RFC 9457): the body of every error reply. */
export const problemSchema = z.object({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  /** Each fault of an input, with its path. */
  errors: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
});
export type Problem = z.infer<typeof problemSchema>;

/** The status and the title of each problem. The last part of its `type` is its name. */
export const PROBLEMS = {
  malformed: [400, "The request was not understood"],
  signInNeeded: [401, "Sign-in needed"],
  wrongSignIn: [401, "Name or PIN is wrong"],
  proofNeeded: [401, "The device must be checked again"],
  wrongPin: [403, "The PIN is wrong"],
  wrongPasskey: [403, "The passkey was not accepted"],
  deviceNeeded: [403, "Not from this device"],
  codeWrong: [403, "The code is wrong or too old"],
  notQualified: [403, "Not qualified for this"],
  outOfScope: [403, "Not for this account"],
  ownWork: [403, "Another person must do this"],
  notFound: [404, "Not found"],
  noPasskeys: [404, "No passkeys here"],
  wrongHost: [421, "Wrong name of this server"],
  methodNotAllowed: [405, "Not possible here"],
  idReused: [409, "This id was used for something else"],
  approved: [409, "Approved: it cannot be changed"],
  taken: [409, "It exists already"],
  enrolledAlready: [409, "Enrolled already"],
  overtaken: [409, "A newer version is approved"],
  notAsApproved: [409, "Not what was approved"],
  deviceInUse: [409, "Somebody else's device"],
  onDuty: [409, "On duty now"],
  noRoom: [409, "No room for more pictures"],
  stale: [412, "Somebody changed it meanwhile"],
  tooLarge: [413, "Too large"],
  wrongMediaType: [415, "Not JSON"],
  faultyPlan: [422, "The plan does not fit"],
  faultyType: [422, "The aircraft type has a fault"],
  faultyEntry: [422, "The entry has a fault"],
  revisionNeeded: [428, "Say which revision this is about"],
  tooMany: [429, "Too many attempts"],
  locked: [429, "Locked for a while"],
  internal: [500, "The server failed"],
  notAvailable: [503, "Not available"],
} as const satisfies Record<string, readonly [number, string]>;
export type ProblemName = keyof typeof PROBLEMS;
