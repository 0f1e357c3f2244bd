import { type Channel, channel } from "node:diagnostics_channel";
import { performance } from "node:perf_hooks";

// What happens between a command and the panels, told to whoever listens (Node's diagnostics_channel): metrics do, a
// tracer may. Nothing is made up or measured while nobody does. No message names a person.

/** A command was answered, or could not be. */
export interface CommandTrace {
  session: string;
  /** The command's own id: the events in `AppendTrace` bear it too. */
  command: string;
  action: string;
  /** `failed`: nothing could be recorded. */
  outcome: "accepted" | "duplicate" | "refused" | "failed";
  reason: string | null;
  /** From when it was understood to when its answer is durable. */
  ms: number;
}

/** Events were made durable, or could not be. */
export interface AppendTrace {
  session: string;
  from: number;
  to: number;
  commands: string[];
  kept: boolean;
  ms: number;
}

/** Events were handed to the sockets of everybody who watches. */
export interface FanOutTrace {
  session: string;
  from: number;
  to: number;
  sockets: number;
}

/** A deadline was recorded. */
export interface DeadlineTrace {
  session: string;
  /** How long after its moment. */
  lateMs: number;
}

const named = <T>(name: string) => channel(`chockside:${name}`) as Channel<unknown, T>;

export const TRACES = {
  command: named<CommandTrace>("command"),
  append: named<AppendTrace>("append"),
  fanOut: named<FanOutTrace>("fanOut"),
  deadline: named<DeadlineTrace>("deadline"),
};

/** Does the work and tells the channel of it, with the milliseconds it took and what came of it. */
export async function traced<T, M extends { ms: number }>(
  to: Channel<unknown, M>,
  work: () => Promise<T>,
  tell: (outcome: { value: T } | { error: unknown }) => Omit<M, "ms">,
): Promise<T> {
  if (!to.hasSubscribers) return work();
  const began = performance.now();
  const say = (outcome: { value: T } | { error: unknown }) =>
    to.publish({ ...tell(outcome), ms: performance.now() - began } as M);
  try {
    const value = await work();
    say({ value });
    return value;
  } catch (error) {
    say({ error });
    throw error;
  }
}
