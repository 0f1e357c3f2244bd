/** Enrolling devices. */
export const devices = {
  title: "Devices",
  lead: "People can sign in only on enrolled devices. If a device is lost, revoke it: it stops working at once.",
  again: "Read again",
  none: "No device is enrolled yet.",
  enrolledAt: (when: string, by: string) => `Enrolled ${when} UTC by ${by}`,
  revokedAt: (when: string, by: string) => `Revoked ${when} UTC by ${by}`,
  revoke: "Revoke",
  revokeSure: "Touch again to revoke",
  enrolled: "Enrolled",
  known: (name: string) => `This device is now known as ${name}.`,
  enrolThis: "Enrol this device",
  how: "A supervisor shows a code on the page Devices. It works once, within five minutes. A key is made on this device and never leaves it.",
  had: "This device was enrolled before: a new key replaces the old one.",
  code: "Code",
  enrolling: "Enrolling…",
  enrol: "Enrol",
  newCode: "Code for a new device",
  scan: (name: string, address: string) =>
    `On ${name}, scan this or open ${address} and enter the code. It works once, within five minutes. Show it to nobody else.`,
  withCode: (code: string) => `Enrol with code ${code}`,
  done: "Done",
  name: "Name of the new device",
  show: "Show a code",
};

export type DeviceWords = typeof devices;
