import type { Figure } from "../../shared/figures/figure.ts";

/**
 * Returns the figure.
 * @throws Error where there is none
 */
export function told(figure: Figure | null | undefined): Figure {
  if (!figure) throw new Error("no such figure");
  return figure;
}

/** Returns the value as a number. */
export function numberIn(figure: Figure | null | undefined): number {
  const { value, id, caution } = told(figure);
  if (typeof value !== "number") throw new Error(`${id} has no number: ${caution ?? ""}`);
  return value;
}

export function inputOf(figure: Figure | null | undefined, name: string): Figure["inputs"][number] {
  const input = told(figure).inputs.find((i) => i.name === name);
  if (!input)
    throw new Error(
      `no input ${name} in ${told(figure)
        .inputs.map((i) => i.name)
        .join(", ")}`,
    );
  return input;
}
