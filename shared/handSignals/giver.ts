import { ellipse, type Mark, type Spot, seen, type Tone, through } from "./marks.ts";
import type { Giver } from "./signal.ts";

/** The lowest height drawn: a marshaller ends below the knee, a pilot at the window's sill. */
export const LOWEST: Readonly<Record<Giver, number>> = { marshaller: 24, fireCrew: 24, pilot: 62 };

/** Returns the marks of the giver without the arms, facing the reader. */
export function giverMarks(giver: Giver, line: number, shift: number): Mark[] {
  const at = (x: number, y: number): Spot => seen({ x, y, z: 0 }, shift);
  const mirrored = (half: readonly (readonly [number, number])[]): Spot[] => [
    ...half.map(([x, y]) => at(-x, y)),
    ...[...half].reverse().map(([x, y]) => at(x, y)),
  ];
  const stroke = (d: string, tone: Tone, fill: Tone | null = null, weight = 1): Mark => ({
    d,
    stroke: tone,
    fill,
    width: line * weight,
  });
  const low = LOWEST[giver];
  const trunk = giver === "pilot" ? low : 53;
  const body: Mark[] = [];
  if (giver !== "pilot") {
    const legs = mirrored([
      [8.2, low],
      [9.2, 54],
    ]);
    body.push(stroke(through(legs), "soft", "paper"));
    body.push(stroke(through([at(-1.6, low), at(0, 49), at(1.6, low)]), "soft"));
    const broken = [-11, -2, -1, 1, 2, 11].map((x, i) => at(x, low + (i === 2 ? 2 : i === 3 ? -2 : 0)));
    body.push(stroke(through(broken), "soft", null, 0.7));
  }
  body.push(
    stroke(
      through(
        mirrored([
          [9.4, trunk],
          [10.6, 68],
          [13.5, 83.5],
          [8, 85.6],
          [2.9, 86.6],
          [2.8, 89],
        ]),
        giver !== "pilot",
      ),
      "soft",
      "paper",
    ),
    ...clothes(giver, at, stroke),
    stroke(ellipse(at(0, 93.8), 5.3, 6.7), "soft", "paper"),
    ...[-2, 2].map((x) => stroke(ellipse(at(x, 94.2), 0.55, 0.55), "soft", "soft", 0.4)),
    ...headgear(giver, at, stroke),
  );
  return body;
}

type At = (x: number, y: number) => Spot;
type Stroke = (d: string, tone: Tone, fill?: Tone | null, weight?: number) => Mark;

function clothes(giver: Giver, at: At, stroke: Stroke): Mark[] {
  if (giver === "pilot") {
    const sill = through([at(-26, LOWEST.pilot), at(26, LOWEST.pilot)]);
    return [stroke(through([at(-3, 86), at(0, 78), at(3, 86)]), "soft", null, 0.7), stroke(sill, "soft")];
  }
  const bands = (ys: readonly number[]) =>
    ys.map((y) => stroke(through([at(-10, y), at(10, y)]), "soft", null, 0.7));
  if (giver === "fireCrew")
    return [...bands([66, 63.5, 57, 54.5]), stroke(through([at(0, 85), at(0, 53)]), "soft", null, 0.7)];
  const braces = [-7, -4.6, 4.6, 7].map((x) => stroke(through([at(x, 85), at(x, 66)]), "soft", null, 0.7));
  return [...braces, ...bands([66, 63.5])];
}

function headgear(giver: Giver, at: At, stroke: Stroke): Mark[] {
  if (giver === "fireCrew") {
    const dome = [-6, -5.4, -3.4, 0, 3.4, 5.4, 6].map((x, i) =>
      at(x, [96.6, 100, 102.4, 103.2, 102.4, 100, 96.6][i] ?? 0),
    );
    return [
      stroke(through(dome, true), "soft", "paper"),
      stroke(through([at(-7.6, 96.6), at(7.6, 96.6)]), "soft", null, 1.4),
    ];
  }
  const cups = [-5.6, 5.6].map((x) => stroke(ellipse(at(x, 93.6), 1.5, 2.7), "soft", "paper"));
  const over = [-5.6, -4.6, -2.6, 0, 2.6, 4.6, 5.6].map((x, i) =>
    at(x, [96, 99.2, 101.2, 101.8, 101.2, 99.2, 96][i] ?? 0),
  );
  const band = stroke(through(over), "soft");
  if (giver === "marshaller") return [band, ...cups];
  return [band, ...cups, stroke(through([at(5.4, 91.4), at(3.6, 89.4), at(1.2, 89.8)]), "soft")];
}
