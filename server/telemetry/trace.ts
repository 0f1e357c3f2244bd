import { type Channel, channel } from "node:diagnostics_channel";
import { performance } from "node:perf_hooks";

// Events between a command and the panels, published by Node's diagnostics_channel. Metrics subscribe; a tracer may.
// Without a subscriber nothing is measured. No message names a person.

/** A command was answered, or failed. */
export interface CommandTrace {
  session: string;
  /** The command's id. `AppendTrace` has it too. */
  command: string;
  action: string;
  /** `failed`: nothing could be recorded. */
  outcome: "accepted" | "duplicate" | "refused" | "failed";
  reason: string | null;
  /** From the parsed command to the durable answer. */
  ms: number;
}

/** An append succeeded or failed. */
export interface AppendTrace {
  session: string;
  from: number;
  to: number;
  commands: string[];
  kept: boolean;
  ms: number;
}

/** Events were sent to the panels that watch the session. */
export interface FanOutTrace {
  session: string;
  from: number;
  to: number;
  sockets: number;
}

/** A deadline was recorded. */
export interface DeadlineTrace {
  session: string;
  /** Delay of the recording, in milliseconds. */
  lateMs: number;
}

/** Somebody was refused at the door, or asked for what they may not have. */
export interface RefusedTrace {
  /** A word of the protocol, of the problems, or of the door. */
  what: string;
}

/** A route answered with a problem. */
export interface ProblemTrace {
  /** Method and pattern of the route. */
  route: string;
  problem: string;
  /** False when the API's description lacks it: a fault of the program. */
  documented: boolean;
}

const named = <T>(name: string) => channel(`chockside:${name}`) as Channel<unknown, T>;

export const TRACES = {
  command: named<CommandTrace>("command"),
  append: named<AppendTrace>("append"),
  fanOut: named<FanOutTrace>("fanOut"),
  deadline: named<DeadlineTrace>("deadline"),
  refused: named<RefusedTrace>("refused"),
  problem: named<ProblemTrace>("problem"),
};

/** Runs `work`, then publishes its duration in milliseconds and its outcome. */
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
