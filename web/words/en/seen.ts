/** The caution at the edge of every panel. */
export const caution = {
  short:
    "Supports hand signals, the approved manual and trained crews; never replaces them. A button here is a message, not an emergency stop.",
};

/** Setting the length of a millimetre on this device. */
export const screen = {
  title: "Size on this screen",
  what: "Keys are meant to be 22 mm high, but no browser knows how large a millimetre is on your screen. Lay a bank card on the outline and step until it is as wide as the card.",
  unit: "dots",
  flat: "Lay the card lengthwise.",
  upright: "Lay the card upright: the screen is narrower than its long side.",
  found: (mm: string) => `${mm} dots to the millimetre; a device of the same kind has the same figure.`,
  card: "Bank card",
  keep: "Keep this size",
  usual: "Usual size",
};

export const light = {
  names: { sun: "Sun", indoor: "Indoor", night: "Night" },
  key: (now: string, next: string) => `Colours for: ${now}. Change to ${next}`,
};
