/** The page of the house: its name, and its rules. */
export const settings = {
  title: "The house",
  lead: "Its name and its rules. A supervisor changes them.",
  name: "Name of the house",
  overdueTitle: "When a date of equipment is over",
  overdueWhat:
    "Barred: it cannot be planned, and its label is refused at the stand. Warned: it can be used, and the date is shown.",
  rules: { bars: "Bar it", warns: "Warn" },
  save: "Save",
  saved: "Saved.",
};

export type SettingsWords = typeof settings;
