/** Part of every export. */
export const CAUTION =
  "Chockside supports hand signals, the approved manual and trained crews; it never replaces them. " +
  "Local rules and licensed people decide.";
