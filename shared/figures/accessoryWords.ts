/** Returns the words of an accessory's id: "hydraulicPump" is "hydraulic pump". */
export const accessoryWords = (accessory: string): string =>
  accessory.replace(/[A-Z]/g, (a) => ` ${a.toLowerCase()}`);
