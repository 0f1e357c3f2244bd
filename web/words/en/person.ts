/** A person's own account, and the people who may sign in. */
export const person = {
  pinAgain: "Your PIN again",
  asideWhy: "Setting a condition aside takes some of the safety away, so it asks for your PIN.",
  asideOffline:
    "Without the server nothing can be set aside: no PIN can be checked and nobody else asked. Meet the condition, or hold.",
  checking: "Checking…",
  failed: "That did not work.",
  title: "People",
  pin: "Your PIN",
  change: "Change it",
  changed: "It is changed. Your sign-ins elsewhere have ended.",
  rule: (least: number) =>
    `${least} characters or more, and none that many people use, such as 123456 or 121212. Your sign-ins elsewhere end.`,
  steps: { old: "Your PIN now", next: "The new one", again: "The new one again" },
  notAlike: "The two were not alike: nothing was changed.",
  goOn: "Go on",
  leave: "Leave it as it is",
  signIns: "Where you are signed in",
  since: (from: string, used: string) => `Since ${from} UTC, last used ${used} UTC`,
  here: "Here",
  end: "End it",
  passkeys: "Your passkeys",
  passkeysWhat:
    "By one you sign in with this device's own lock, without the PIN. Setting a condition aside and approving still ask for the PIN.",
  passkeysNotHere: "One can be made on an enrolled device whose browser has them.",
  passkeyMade: (when: string) => `Made ${when} UTC`,
  takeBack: "Take it back",
  makePasskey: "Make a passkey",
  byPasskey: "Sign in by passkey",
  noPasskey: "No passkey was given.",
  everybody: "Everybody",
  everybodyWhat: "Whom you stop is cut off at once and cannot sign in until let in again.",
  add: "Add a person",
  changePerson: "Change",
  changeOne: (name: string) => `Change ${name}`,
  name: "Name",
  handle: "Short name, to sign in with",
  firstPin: "First PIN",
  firstPinWhat: (least: number) => `${least} digits or more. Tell it to the person, who then changes it.`,
  posts: "Posts the person is qualified for",
  currentUntil: "Current for duty until (may be left out)",
  current: (day: string, days: number, ending: boolean) => {
    if (days <= 0) return `Not current since ${day}`;
    return ending
      ? `Current until ${day}: ${days} ${days === 1 ? "day" : "days"} left`
      : `Current until ${day}`;
  },
  save: "Save",
  stopped: "Stopped",
  stop: "Stop",
  stopSure: "Touch again to stop",
  onDuty: "On duty now",
  onDutyWhat: "A start may depend on this person. Tell the crew first, and have another take the post.",
  cutOff: "Cut off all the same",
  leaveOnDuty: "Leave them on duty",
  letIn: "Let in again",
};

export type PersonWords = typeof person;
