/** The first run of an empty house, and what an unfinished one still lacks. */
export const house = {
  title: "A new house",
  lead: "Nobody can sign in here yet. First come this device and the first supervisor. Everything else comes later.",
  empty:
    "Nobody can sign in here yet. The server printed a link when it started: open it on the first device.",
  toFirst: "Begin this house",
  over: "This house has its first supervisor.",
  overWhat: "Sign in, or ask a supervisor to add you.",
  toSignIn: "To the sign-in",
  deviceTitle: "This device",
  deviceWhat:
    "The server printed a link with a code when it started. It makes this device known to it, once.",
  code: "Code",
  noCode: "No code, or it is too old? On the server, npm run house -- link prints another link.",
  begin: "Begin on this device",
  beginning: "Beginning…",
  youTitle: "The house and its first supervisor",
  house: "Name of the house",
  houseLike: "Northfield Heritage Flight",
  name: "Your name",
  handle: "Your short name, to sign in with",
  handleRule: "Letters and digits, no spaces.",
  posts: "Posts you are qualified for, besides supervisor",
  pin: "Your PIN",
  pinRule: (least: number) => `${least} digits or more, and none that many people use, such as 123456.`,
  pinAgain: "Your PIN again",
  stillNeeded: (what: string) => `Still needed: ${what}`,
  notAlike: "The two PINs are different. Enter both again.",
  goOn: "Go on",
  enter: "Enter this house",
  entering: "Entering…",
  missing: "Before the first start",
  missingLead: (done: number, all: number) => `${done} of ${all} steps are done.`,
  steps: {
    supervisor: "First supervisor",
    device: "A device enrolled",
    people: "People for every post",
    type: "An approved aircraft type",
    aircraft: "An aircraft",
    plan: "The first plan",
  },
  done: "Done",
  open: "Missing",
  lacks: (posts: string, second: boolean) => {
    const nobody = posts === "" ? "" : `Nobody may hold ${posts} yet.`;
    const two = "A second supervisor is needed: nobody approves their own aircraft type.";
    return [nobody, ...(second ? [two] : [])].filter((s) => s !== "").join(" ");
  },
  typeWhat: "One supervisor enters the figures from the manual, another one approves them.",
  draftWaits: "A draft waits. A supervisor who did not work on it must approve it.",
  aircraftWhat: "It needs an approved type.",
  aircraftLater: "It comes after the type.",
  planWhat: "Anybody qualified for cockpit or supervisor plans it.",
  planLater: "It comes after the aircraft.",
  who: "A supervisor does this.",
  act: {
    people: "Add people",
    type: "To the types",
    aircraft: "Add an aircraft",
    plan: "Plan a start",
    device: "Enrol a device",
  },
};

export type HouseWords = typeof house;
