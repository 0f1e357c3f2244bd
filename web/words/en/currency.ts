/** What people must keep up. */
export const currency = {
  title: "Currencies of people",
  lead: "What people must keep up, such as type training, fire training and recency.",
  none: "The house keeps none yet.",
  add: "Add a currency",
  name: "Name",
  recency: "Days that a start at the post counts (may be left out)",
  needs: { bars: "A lapse bars", warns: "A lapse warns", not: "Not needed" },
  byDate: "An end date for each person",
  byRecency: (days: number) => `A start at the post counts for ${days} days, or an end date`,
  retired: "No longer asked",
  retire: "Ask it no longer",
  takeBack: "Ask it again",
  change: "Change it",
  save: "Save",
  leave: "Leave it as it is",
  own: "Your currencies",
  over: (name: string, post: string, day: string | null) =>
    day === null ? `${name}, ${post}: no date` : `${name}, ${post}: lapsed on ${day}`,
  ending: (name: string, post: string, day: string) => `${name}, ${post}: ends on ${day}`,
  bars: "the post cannot be taken",
  dates: "Last day of each currency",
  enterDates: "Enter currencies",
  datesOf: (name: string) => `Currencies of ${name}`,
  newPin: "New PIN",
  newPinOf: (name: string) => `New PIN of ${name}`,
  newPinWhat: "All their sign-ins end. They then change it themselves.",
  next: (least: number) => `New PIN, ${least} characters or more`,
  replace: "Replace the PIN",
};

export type CurrencyWords = typeof currency;
