/** Signing in, and the language of a person. */
export const signIn = {
  lead: "Starting engines together: cockpit, fire guard, ground power, supervisor.",
  title: "Sign in",
  handle: "Short name",
  pin: "PIN",
  code: "Joining code, if you were given one",
  enter: "Sign in",
  entering: "Signing in…",
  enrol: "Enrol this device",
  failed: "That did not work.",
  demo: "Demonstration",
  demoLead:
    "This server holds invented people and aircraft and open PINs. Not for a real start. Touch a name to sign in as that person; every window of this browser can be another one.",
};

export const language = {
  title: "Language",
  failed: "This language could not be loaded. Try again when there is a network.",
};

export const keypad = { clear: "Clear", back: "Back" };
