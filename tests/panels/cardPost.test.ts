import { expect, it } from "vitest";
import { cardPost } from "../../web/posts/shared/cardPost.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";

const { state } = given({ type: FOUR }).manned();
const vacant = given({ type: FOUR }).state;
const me = (id: string, ...mayHold: ("cockpit" | "fireGuard")[]) => ({ id, name: id, mayHold });

it("[CRD-9, CRD-12] a post answers its own card; a second person without a post answers the cockpit's, if qualified", () => {
  expect(cardPost({ post: "cockpit", me: me("ada", "cockpit"), state })).toBe("cockpit");
  expect(cardPost({ post: "fireGuard", me: me("bo", "fireGuard", "cockpit"), state })).toBe("fireGuard");
  expect(cardPost({ post: null, me: me("fay", "cockpit"), state })).toBe("cockpit");
  expect(cardPost({ post: null, me: me("fay", "cockpit"), state: vacant })).toBe("cockpit");
  expect(cardPost({ post: null, me: me("ed"), state })).toBeNull();
  // The holder of a post on another device is no second person here.
  expect(cardPost({ post: null, me: me("ada", "cockpit"), state })).toBeNull();
});
