/** The kinds of equipment that a house keeps in its register. */
export const EQUIPMENT_KINDS = ["cart", "extinguisher", "chocks", "towBar", "headset"] as const;
export type EquipmentKind = (typeof EQUIPMENT_KINDS)[number];

/** The causes for which something is taken out of service. */
export const OUT_CAUSES = ["usedUp", "broken", "other"] as const;
export type OutCause = (typeof OUT_CAUSES)[number];

/** The dates that run out on a piece of equipment. */
export const DUE_DATES = ["weighedUntil", "testedUntil"] as const;
export type DueDate = (typeof DUE_DATES)[number];

/** The lengths of a label. */
export const LABEL_MOST = 16;
const LABEL = new RegExp(`^[A-Z0-9][A-Z0-9-]{0,${LABEL_MOST - 1}}$`);

/** Returns true for a label: capital letters, digits and hyphens, so that it can be read out and typed with gloves. */
export const isLabel = (text: string): boolean => LABEL.test(text);

/**
 * Returns the label in what was typed or scanned: a printed code holds an address that ends in the label. Null when
 * there is none.
 */
export function labelIn(text: string): string | null {
  const last = text.trim().split("/").at(-1)?.toUpperCase() ?? "";
  return isLabel(last) ? last : null;
}
