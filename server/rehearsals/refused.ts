/** A rehearsal, or a word in one, that was refused; the message says why and what to do. */
export class NoRehearsal extends Error {
  readonly problem: "faultyPlan" | "tooMany" | "notFound" | "notQualified";

  constructor(problem: NoRehearsal["problem"], message: string) {
    super(message);
    this.problem = problem;
  }
}
