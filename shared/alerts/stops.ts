import { POSTS } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { AlertDefinition, MessageAlert } from "./definition.ts";

/** Returns the rules of an alert that is raised for every stop of one list, until the stop ends. */
function ofStops(stops: (state: SessionState) => readonly { id: number }[]): MessageAlert {
  return {
    about: "message",
    begun: (state) => stops(state).map(({ id }) => ({ ref: id })),
    lasting: (state) => stops(state).map(({ id }) => id),
  };
}

export const fire: AlertDefinition<"fire"> = {
  to: POSTS,
  priority: "emergency",
  latching: true,
  shelvable: false,
  acts: null,
  trigger: null,
  ...ofStops((state) => state.fires),
};

export const cut: AlertDefinition<"cut"> = {
  to: POSTS,
  priority: "emergency",
  latching: true,
  shelvable: false,
  acts: null,
  trigger: null,
  ...ofStops((state) => state.cuts),
};

export const hold: AlertDefinition<"hold"> = {
  to: POSTS,
  priority: "alarm",
  latching: true,
  shelvable: false,
  acts: null,
  trigger: null,
  ...ofStops((state) => state.holds),
};
