/** The sheet of posts and session, and what a device says of itself. */
export const sessionSheet = {
  sheet: (aircraft: string) => `${aircraft}: posts and session`,
  joinTitle: "Join on another device",
  joinCode: (code: string) => `Join with code ${code}`,
  drawing: "Drawing the code…",
  record: "Record",
  printBrief: "Print brief",
  printRecord: "Print record",
  abandon: "Abandon session",
  abandonTitle: "Abandon this session",
  abandonWhy: "Why is it abandoned?",
  abandonDo: "Abandon",
  abandonReasons: { weather: "Weather", defect: "Defect found", crew: "Crew not available" },
};

export const senses = {
  later: "Later",
  region: "Test signal",
  played: "Three tones. Did you hear or feel them?",
  ask: "Can you hear or feel this device in the noise?",
  vibrates: "It vibrates too, if it can.",
  noVibration: "This device cannot vibrate.",
  louder: "If not: volume up, sound not muted, then again.",
  again: "Test again",
  test: "Test signal",
  reached: "I hear or feel it",
  notReached: "I do not",
  battery: (percent: number) => `Battery ${percent} %: charge this device or move the post to another.`,
  notLasting: "Unsent signals are not kept on this device: do not close or reload this tab.",
  dark: "The screen may go dark: this device does not keep it lit.",
  noTone: "You hear no tones here: watch the screen.",
  soundOff: "Sound is off until you touch the screen.",
};

/** The sheet of the posts. */
export const postsSheet = {
  reasons: {
    silent: "Silent, and not seen at the post",
    called: "Called away",
    device: "Device lost or broken",
  },
  vacateWhy: (name: string, post: string) => `Take ${name} off ${post}: why?`,
  vacate: "Take off the post",
  briefed: (name: string) => `${name}, briefed`,
  notBriefed: (name: string) => `${name}, not briefed`,
  vacant: "vacant",
  planned: (name: string) => `planned: ${name}`,
  offeredTo: (name: string) => `offered to ${name}`,
  takeThis: (post: string) => `Take ${post}`,
  move: "Move it to this device",
  accept: (post: string) => `Accept ${post}`,
  handOver: "Hand over",
  leave: "Leave the post",
  handOverTo: (post: string) => `Hand ${post} over to`,
};
