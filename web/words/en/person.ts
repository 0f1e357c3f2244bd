/** What a person does about themselves and about who may sign in. */
export const person = {
  pinAgain: "Your PIN again",
  asideWhy: "Setting a condition aside takes some of the safety away, so it asks for your PIN.",
  asideOffline:
    "Without the server nothing can be set aside: no PIN can be checked and nobody else asked. Meet the condition, or hold.",
  checking: "Checking…",
  failed: "That did not work.",
};

export type PersonWords = typeof person;
