import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { type RunningCrew, runCrew } from "./run.ts";

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
  runCrew({ url, posts: POSTS.filter((p) => p !== except), leaveOut: [leaveOut], planned: "anew" });
