/** The demo's scripted crew. */
export const demo = {
  watch: "Watch a crew start one",
  be: (post: string) => `Be the ${post}`,
  what: "A scripted crew plays the other posts. It answers as people do, at a person's pace.",
  begins: "The crew takes its posts…",
  people: "Sign in as one of the demo's people",
};
