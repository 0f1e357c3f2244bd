import { planBar } from "../../shared/house/planBar.ts";
import { type HouseStep, houseSteps } from "../../shared/house/steps.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Directory } from "../store/directory.ts";

/**
 * Returns what the house has and what it still lacks before its first start.
 * @param sessions counts the sessions that were ever planned, to one at most
 */
export async function stepsOf(directory: Directory, sessions: () => Promise<number>): Promise<HouseStep[]> {
  const people = (await directory.people()).filter((p) => p.active && !p.demo);
  const count = (post: Post) => people.filter((p) => p.mayHold.includes(post)).length;
  const types = await directory.types();
  const aircraft = await directory.register.all("aircraft");
  return houseSteps({
    devices: (await directory.devices.all()).filter((d) => d.revokedAt === null).length,
    mayHold: Object.fromEntries(POSTS.map((post) => [post, count(post)])) as Record<Post, number>,
    approved: types.filter((t) => t.status === "approved").length,
    drafts: types.filter((t) => t.status === "draft").length,
    plannable: aircraft.filter((a) => planBar(a.body, types) === null).length,
    sessions: await sessions(),
  });
}
