/** Keys of a remote or keyboard that a person taught the device. */
export const remote = {
  title: "Keys for full hands",
  what: "A remote or keyboard on this device can send hold and simple answers. It never reads back, clears or releases. Touch one of these, then press its key once.",
  acts: { answer: "Answer", hold: "Hold" },
  teach: { answer: "Teach a key to answer", hold: "Teach a key to hold" },
  none: "no key taught",
  press: (act: string) =>
    `${act}: press its key now. If nothing happens, the device keeps that key for itself: press another.`,
  cannot: {
    unknown: "The device does not say which key that was. Press another.",
    keptBack: "The panel needs that key itself. Press another.",
    taken: "That key is already taught. Press another.",
  },
  stop: "Teach no key",
  forget: "Forget the keys",
  gives: (answer: string) => `The remote's key answers: ${answer}`,
  touch: "The remote cannot answer this: touch the screen.",
};
