/** Enrolling devices. */
export const devices = {
  title: "Devices",
  lead: "People sign in on enrolled devices alone. Revoke one that is lost: it is cut off at once.",
  again: "Read again",
  none: "No device is enrolled yet.",
  enrolledAt: (when: string, by: string) => `Enrolled ${when} UTC by ${by}`,
  revokedAt: (when: string, by: string) => `Revoked ${when} UTC by ${by}`,
  revoke: "Revoke",
  revokeSure: "Touch again to revoke",
  enrolled: "Enrolled",
  known: (name: string) => `This device is now known as ${name}.`,
  enrolThis: "Enrol this device",
  how: "A supervisor shows a code on the page Devices. It is good for five minutes and once. A key is made on this device and never leaves it.",
  had: "This device was enrolled before: a new key takes the place of the old one.",
  code: "Code",
  enrolling: "Enrolling…",
  enrol: "Enrol",
  newCode: "Code for a new device",
  scan: (name: string, address: string) =>
    `On ${name}, scan this or open ${address} and enter the code. It is good for five minutes and once. Show it to nobody else.`,
  withCode: (code: string) => `Enrol with code ${code}`,
  done: "Done",
  name: "Name of the new device",
  show: "Show a code",
};

export type DeviceWords = typeof devices;
