/** Pictures of defects, at a post and on the aircraft's page. */
export const pictures = {
  add: "Add a picture",
  addTo: (defect: string) => `Add a picture to: ${defect}`,
  working: "Making it smaller…",
  sending: "Sending the picture…",
  added: "The picture is added.",
  unreadable: "This file is no picture that this device can read.",
  title: (n: number) => (n === 1 ? "1 picture" : `${n} pictures`),
  of: (defect: string, n: number) => `Picture ${n} of: ${defect}`,
  by: (name: string, when: string) => `By ${name}, ${when}`,
  gone: (name: string, when: string) => `Picture by ${name}, ${when}: no longer kept`,
  removed: (name: string, when: string, why: string) => `Removed by ${name}, ${when}: ${why}`,
  save: "Save",
  remove: "Remove",
  why: "Why is the picture removed? The record keeps that it was there",
  leave: "Leave it",
  saveAll: "Save the defects' pictures",
};

export type PictureWords = typeof pictures;
