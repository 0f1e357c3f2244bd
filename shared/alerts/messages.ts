import type { AlertDefinition } from "./definition.ts";

/** Nobody answered a signal, not even after its reminder. */
export const unanswered: AlertDefinition<"unanswered"> = {
  to: ["cockpit", "supervisor"],
  priority: "warning",
  latching: false,
  shelvable: true,
  acts: null,
  trigger: null,
  about: "message",
  begun: (state) =>
    state.signals
      .filter((s) => s.late === 2)
      .map((s) => ({ ref: s.id, ...(s.engine === null ? {} : { engine: s.engine }) })),
  lasting: (state) => state.signals.map((s) => s.id),
};
