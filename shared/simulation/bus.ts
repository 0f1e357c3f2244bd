import type { Source } from "../models/electrical/sag.ts";

/** A motor or a lamp on the bus: what it draws at these volts is (volts − back) / ohm, or a fixed current. */
export type Load = { is: "motor"; ohm: number; backVolts: number } | { is: "steady"; amps: number };

/** One wire to the bus, with the volts behind it. A source whose volts are below the bus's gives nothing. */
export type Feed = Source;

export interface Bus {
  volts: number;
  /** Amperes of each feed and of each motor, in the order given. */
  feeds: number[];
  motors: number[];
}

const ohmOf = ({ internalOhm, cableOhm }: Source) => internalOhm + cableOhm;

/**
 * Returns the volts of a bus at which what its sources give is what its loads draw (Kirchhoff's current law): V = (Σ
 * Voc/R + Σ back/Ra − Σ I) / (Σ 1/R + Σ 1/Ra). Several starters on one bus pull it down together. A source is not fed
 * backwards: carts, and generators behind their cut-out, give current and take none.
 */
export function solveBus(feeds: readonly Feed[], loads: readonly Load[]): Bus {
  let giving = feeds;
  for (;;) {
    const volts = nodeVolts(giving, loads);
    const forwards = giving.filter(({ openCircuit }) => openCircuit >= volts);
    if (forwards.length === giving.length || giving.length === 1)
      return {
        volts,
        feeds: feeds.map((feed) =>
          giving.includes(feed) ? Math.max(0, (feed.openCircuit - volts) / ohmOf(feed)) : 0,
        ),
        motors: loads.flatMap((l) => (l.is === "motor" ? [Math.max(0, (volts - l.backVolts) / l.ohm)] : [])),
      };
    giving = forwards;
  }
}

function nodeVolts(feeds: readonly Feed[], loads: readonly Load[]): number {
  let current = 0;
  let conductance = 0;
  for (const feed of feeds) {
    current += feed.openCircuit / ohmOf(feed);
    conductance += 1 / ohmOf(feed);
  }
  for (const load of loads) {
    if (load.is === "steady") current -= load.amps;
    else {
      current += load.backVolts / load.ohm;
      conductance += 1 / load.ohm;
    }
  }
  return conductance > 0 ? Math.max(0, current / conductance) : 0;
}
