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
  what: "A scripted crew plays the other posts. It answers as people do, at a person's pace.",
  begins: "The crew takes its posts…",
  people: "Sign in as one of the demo's people",
};
