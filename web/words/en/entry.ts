/** Messages about the network. */
export const net = {
  noServer: "The server does not answer. Check this device's network.",
  status: (status: number) => `The server said ${status}.`,
  notFetched: "It could not be loaded.",
  noList: "The list could not be loaded.",
  notSecure: "This address is not secure: open the panels by https, then enrol the device.",
  /** Reasons why a message to the server failed. */
  wire: {
    malformed: "The server did not understand it: reload this panel",
    tooLarge: "Larger than the server takes",
    tooMany: "Too many messages: wait a moment",
    protocolMismatch: "This panel is too old: reload it",
    signInNeeded: "The sign-in has ended: sign in again",
    proofNeeded: "This device could not be checked: sign in again",
    pinNeeded: "This needs your PIN: send it again with your PIN",
    noSuchSession: "There is no such session",
    notAvailable: "Not recorded: use hand signals",
  },
};

export const app = {
  fetching: "Loading…",
  opening: "Opening…",
  notRecorded: "Not recorded yet",
  unsettled: "Something you sent is not recorded.",
  unsettledWhere: "It waits in a session. Open the session to send it or drop it.",
  openSession: "Open the session",
  partMissing: "A part of this panel could not be loaded. Reload when there is a network.",
};

export const fault = {
  title: "This page cannot be shown.",
  what: "Hold, and use hand signals and local procedures. What was sent before is kept and recorded.",
  again: "Load it again",
};

export const update = {
  region: "New version",
  ready: "A new version is ready.",
  watched: "Another window on this device shows a session. Leave that session first.",
  asked: "It starts only when you say so.",
  take: "Take the new version",
  waits: "A new version is ready. It waits until you have left the session.",
  reload: "Reload this panel",
  mismatch:
    "This panel and the server have different versions. Nobody hears what you send here: use hand signals. What was not recorded is kept.",
  fetching: "Loading the new version…",
  now: "Reload now",
};

export const ramp = {
  title: "The ramp",
  signedIn: (name: string) => `Signed in as ${name}`,
  plan: "Plan a start",
  setting: "Preparing…",
  signOut: "Sign out",
  back: "Back to the ramp",
  asking: "Asking the server…",
  nothingNeeded: "No stop, no alert",
  fire: "Fire reported",
  fireAt: (engines: string) => `Fire at number ${engines}`,
  cutAll: "Cut: all engines",
  cutAt: (n: number) => `Cut: number ${n}`,
  holdBy: (name: string) => `Hold by ${name}`,
  ready: (n: number) => `Ready to start number ${n}`,
};
