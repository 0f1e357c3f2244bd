/** The caution at the edge of every panel. */
export const caution = {
  short:
    "Supports hand signals, the approved manual and trained crews; never replaces them. A button here is a message, not an emergency stop.",
};

export const light = {
  names: { sun: "Sun", indoor: "Indoor", night: "Night" },
  key: (now: string, next: string) => `Colours for: ${now}. Change to ${next}`,
};
