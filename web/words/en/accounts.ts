/** The accounts of other systems, on the page of the house. */
export const accounts = {
  title: "Other systems",
  lead: "Accounts for programs: a wall display, maintenance, an instrument. They hold no post and give no signal.",
  none: "There are none.",
  add: "Make an account",
  name: "Name of the system",
  until: "Last day",
  scope: "What it may do",
  of: { pushReadings: "Registration of the aircraft", pushWeather: "Field, as in the plans" },
  scopes: {
    readRecords: "Read records",
    readLive: "Read what happens now",
    dueCalendar: "Read the dues as a calendar",
    pushReadings: "Send readings of one aircraft",
    pushWeather: "Send weather of one field",
  },
  make: "Make it",
  leave: "Leave it",
  tokenOf: (name: string) => `Token of ${name}`,
  once: "Copy the token now. It is not shown again.",
  calendarAddress:
    "Give a calendar program this address. Whoever has it reads the dues, people's names among them, until you end the account.",
  done: "It is copied",
  endsOn: (day: string) => `Last day ${day}`,
  revoked: "Ended",
  revoke: "End it",
  revokeSure: "Touch again to end it",
};

export type AccountWords = typeof accounts;
