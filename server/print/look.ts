/**
 * Page size (A4, points) and colours, the same as on the panels' light theme. Colour never carries a meaning alone.
 */
export const PAGE = { width: 595.28, height: 841.89, left: 42, right: 553.28, top: 54, bottom: 776 } as const;
export const WIDTH = PAGE.right - PAGE.left;

export const INK = {
  ink: "#10161c",
  soft: "#3a454e",
  rule: "#868f96",
  danger: "#a3001b",
  warning: "#6b4a00",
  safe: "#00552f",
  paper: "#ffffff",
} as const;
export type Tone = "ink" | "soft" | "danger" | "warning" | "safe";

export const THIN = 0.5;
export const LINE = 0.9;
