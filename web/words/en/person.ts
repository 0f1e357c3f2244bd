/** A person's own account, and the people who may sign in. */
export const person = {
  pinAgain: "Your PIN again",
  asideWhy: "Setting a condition aside makes the start less safe. That is why it needs your PIN.",
  asideOffline: "Without the server no condition can be set aside. Meet the condition, or hold.",
  checking: "Checking…",
  failed: "That did not work.",
  title: "People",
  pin: "Your PIN",
  change: "Change it",
  changed: "It is changed. You are signed out everywhere else.",
  rule: (least: number) =>
    `${least} characters or more, and none that many people use, such as 123456 or 121212. You are signed out everywhere else.`,
  steps: { old: "Your PIN now", next: "The new one", again: "The new one again" },
  notAlike: "The two are different. Nothing was changed.",
  goOn: "Go on",
  leave: "Keep it as it is",
  signIns: "Where you are signed in",
  since: (from: string, used: string) => `Since ${from} UTC, last used ${used} UTC`,
  here: "Here",
  end: "End it",
  passkeys: "Your passkeys",
  passkeysWhat:
    "A passkey signs you in with this device's own lock, without the PIN. Setting a condition aside and approving still need the PIN.",
  passkeysNotHere: "You can make one on an enrolled device whose browser supports it.",
  passkeyMade: (when: string) => `Made ${when} UTC`,
  takeBack: "Remove it",
  makePasskey: "Make a passkey",
  byPasskey: "Sign in by passkey",
  noPasskey: "No passkey was given.",
  everybody: "Everybody",
  everybodyWhat:
    "A person you block is signed out at once. That person cannot sign in until you allow it again.",
  add: "Add a person",
  changePerson: "Change",
  changeOne: (name: string) => `Change ${name}`,
  name: "Name",
  handle: "Short name, to sign in with",
  firstPin: "First PIN",
  firstPinWhat: (least: number) =>
    `${least} digits or more. Tell it to the person. The person then changes it.`,
  posts: "Posts the person is qualified for",
  currentUntil: "Training valid until (optional)",
  current: (day: string, days: number, ending: boolean) => {
    if (days <= 0) return `Training out of date since ${day}`;
    return ending
      ? `Training valid until ${day}: ${days} ${days === 1 ? "day" : "days"} left`
      : `Training valid until ${day}`;
  },
  save: "Save",
  stopped: "Sign-in blocked",
  stop: "Block sign-in",
  stopSure: "Touch again to block",
  onDuty: "On duty now",
  onDutyWhat: "A start may depend on this person. Tell the crew first. Another person must take the post.",
  cutOff: "Block anyway",
  leaveOnDuty: "Do not block",
  letIn: "Allow sign-in again",
};

export type PersonWords = typeof person;
