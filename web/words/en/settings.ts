/** The page of the house: its name, and its rules. */
export const settings = {
  title: "The house",
  lead: "Its name and its rules. A supervisor changes them.",
  name: "Name of the house",
  overdueTitle: "When a date of equipment is over",
  overdueWhat:
    "Barred: it cannot be planned, and its label is refused at the stand. Warned: it can be used, and the date is shown.",
  rules: { bars: "Bar it", warns: "Warn" },
  inspectTitle: "When a defect is mended",
  inspectWhat:
    "Yes: a mended defect stays open, and blocks the start if it did, until another supervisor than the one who mended it inspects it. It holds for starts planned from then on, and on the aircraft's page at once.",
  inspectWho: "Inspected by another",
  inspects: { other: "Yes", same: "No" },
  save: "Save",
  saved: "Saved.",
};

export type SettingsWords = typeof settings;
