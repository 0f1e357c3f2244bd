import { z } from "zod";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { Identity } from "../auth/identity.ts";
import type { SignIns } from "../auth/sign-ins.ts";
import type { Sessions } from "../sessions/sessions.ts";
import { ProblemError } from "./problem.ts";
import { pinSchema, rightPin } from "./sign-in.ts";

/** Fields of a request that may cut off a person on duty. */
export const cutting = { confirm: z.boolean().optional(), pin: pinSchema.optional() };
type Cutting = z.infer<z.ZodObject<typeof cutting>>;

export interface OnPurposeDeps {
  signIns: Pick<SignIns, "confirm">;
  sessions: Pick<Sessions, "postsHeld">;
}

/**
 * Lets a person cut off another who holds a post only on purpose: a start may hang on them.
 * @throws ProblemError unless nobody is cut off from a post, or `confirm` and the right PIN were sent
 */
export async function onPurpose(
  { signIns, sessions }: OnPurposeDeps,
  identity: Identity,
  { confirm, pin }: Cutting,
  is: Parameters<Sessions["postsHeld"]>[0],
): Promise<void> {
  const [held] = await sessions.postsHeld(is);
  if (!held) return;
  if (confirm !== true || pin === undefined) {
    const post = SPOKEN.en.post(held.post).toLowerCase();
    const detail = `This cuts off the ${post} of ${held.aircraft}: send confirm and your PIN to do it all the same`;
    throw new ProblemError("onDuty", detail);
  }
  const detail = `That is not ${identity.person.name}'s PIN: nobody was cut off`;
  rightPin(await signIns.confirm(identity, pin), detail);
}
