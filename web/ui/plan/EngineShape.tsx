import type { EngineMark } from "./planView.ts";

const BLADES = "M24 24c-6-7-5-14 0-21c5 7 6 14 0 21c6 7 5 14 0 21c-5-7-6-14 0-21z";
const ACROSS = "M24 24c-6 6-12 5-18 0c6-5 12-6 18 0c6-6 12-5 18 0c-6 5-12 6-18 0z";
const DISC = "M24 4a20 20 0 1 0 .1 0z";

/** What is drawn as lines and what is filled. Of a turning engine, the propeller's disc is hatched. */
const DRAWN: Readonly<Record<EngineMark["shape"], { line?: string; fill?: string }>> = {
  none: {},
  still: { line: BLADES },
  asked: { line: `${BLADES}M24 1a23 23 0 1 0 .1 0z` },
  clear: { line: "M24 0L48 24L24 48L0 24z", fill: BLADES },
  cranking: { line: "M24 4v40a20 20 0 0 0 0-40M24 18L35 7M24 30L41 13M24 41L44 21M24 4v40" },
  caught: { line: `${DISC}M4 27L27 4M7 35L35 7M13 41L41 13M21 44L44 21` },
  stable: {
    line: `${DISC}M4 27L27 4M7 35L35 7M13 41L41 13M21 44L44 21M0 46h48`,
    fill: "M24 13a11 11 0 1 0 .1 0z",
  },
  stopped: { line: "M3 3h42v42H3z", fill: ACROSS },
  fire: { fill: "M24 0c3 11 14 15 14 29a14 14 0 0 1-28 0c0-6 3-10 6-14c2 5 4 6 5 6c1-6-2-12 3-21z" },
};

/** The state of an engine as its propeller seen from ahead, for people who cannot tell the colours apart. */
export function EngineShape({ shape }: { shape: EngineMark["shape"] }) {
  const { line, fill } = DRAWN[shape];
  return (
    <svg viewBox="-2 -2 52 52" className="engine-shape" aria-hidden="true">
      {line && <path d={line} className="line" />}
      {fill && <path d={fill} className="fill" />}
    </svg>
  );
}
