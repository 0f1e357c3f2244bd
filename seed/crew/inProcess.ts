import { randomInt } from "node:crypto";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { type RunningCrew, runCrew } from "./run.ts";

/** Each crew has a seed of its own, because its devices are named by it. */
const SEEDS = 1_000_000;

/** Begins a crew in a newly planned session, at every post but one. A server in the demo calls it with its own address. */
export const playCrew = ({
  url,
  except,
  leaveOut,
}: {
  url: string;
  except: Post | null;
  leaveOut: string;
}): Promise<RunningCrew> =>
  runCrew({
    url,
    seed: randomInt(SEEDS),
    posts: POSTS.filter((p) => p !== except),
    leaveOut: [leaveOut],
    planned: "anew",
    spares: "single",
  });
