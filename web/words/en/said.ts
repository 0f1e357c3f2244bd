/** A person's messages: the list of them, and each action in words. */
export const said = {
  sent: {
    region: "What you sent",
    title: "You said",
    anew: "It still holds: send it anew",
    drop: "Drop it",
    stopSending: "Sending… not yet heard by anyone. Use the hand signal.",
    recorded: (number: number) => `Recorded as number ${number}`,
    notSent: "Not sent in time. Does it still hold?",
    notAnswered: "Not answered in time: it may have been heard. Does it still hold?",
    noAnswer: "no answer yet",
    correct: "Correct this figure",
    readBackWrong: (n: number) => `read back ${n}: wrong, void`,
    /** Why what was said no longer counts. */
    ends: {
      unable: "Answered unable: it permits nothing",
      expired: "Void: its time ran out",
      revoked: "Void: it permits nothing any more",
      readBackWrong: "Void: it was read back wrong",
      superseded: "Replaced by a newer one",
      past: "It no longer counts",
    },
    used: (n: number) => `Used by the start of number ${n}`,
  },
  actions: {
    seenFrom: (said: string, post: string) => `${said}, seen from ${post}`,
    runUp: (n: number, item: string) => `Run-up of number ${n}, ${item}`,
    trace: (samples: number) => `A meter's record of the volts, ${samples} samples`,
    good: "good",
    notGood: "not good",
    takePost: (post: string) => `Take the post: ${post}`,
    leavePost: (post: string) => `Leave the post: ${post}`,
    handOver: (post: string) => `Hand over: ${post}`,
    vacate: (post: string) => `Take off the post: ${post}`,
    briefed: "Briefed",
    order: (order: string) => `Order ${order}`,
    planChanged: "Change of plan",
    advance: (stage: string) => `Go on to ${stage}`,
    abandon: "Abandon the session",
    present: "I am here",
    shown: "Shown on this panel",
    shelved: "Alert put aside",
    setAside: (n: number | undefined, condition: string) =>
      n === undefined ? `Set aside: ${condition}` : `Set aside, number ${n}: ${condition}`,
    blades: (n: number, count: number, resistance: boolean) =>
      `Number ${n}: ${count} blades${resistance ? ", resistance" : ""}`,
    wind: (kt: number | undefined) => (kt === undefined ? "Weather report" : `Wind ${kt} kt`),
    defect: (words: string) => `Defect: ${words}`,
    defectClosed: "Defect closed",
    drill: (title: string) => `Drill: ${title}`,
    drillStep: (n: number, done: boolean) => `Drill step ${n}: ${done ? "done" : "does not apply"}`,
    drillEnded: "Drill ended",
    alertSeen: (alert: string) => `Seen: ${alert}`,
    seen: "Alert seen",
  },
};

export type SaidWords = typeof said;
