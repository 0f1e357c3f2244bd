/** The demo's scripted crew. */
export const demo = {
  watch: "Watch a crew start one",
  /** "Be" a post, for each post. */
  be: {
    cockpit: "Be the cockpit",
    fireGuard: "Be the fire guard",
    groundPower: "Be ground power",
    supervisor: "Be the supervisor",
  },
  what: "It is a rehearsal: a simulated aircraft, and partners at the other posts who answer at a person's pace.",
  begins: "The crew takes its posts…",
  people: "Sign in as one of the demo's people",
};
