import type { Ask } from "../../shared/asks/ask.ts";
import type { ChoiceWord } from "../../shared/asks/choiceWord.ts";

/**
 * True for each answer that a key of a remote may give: that something was heard, that somebody is there, and the plain
 * reports of the ground posts. Everything else is read on the screen first: what permits, requests, releases, ends a
 * danger, changes the stage or is a step of an engine's life, and what needs an entry.
 */
const THUMB: Readonly<Record<ChoiceWord, boolean>> = {
  abandon: false,
  acknowledge: true,
  advance: false,
  alive: false,
  allClear: false,
  arcClear: true,
  arcNotClear: false,
  authorise: false,
  authoriseIgnitionOff: false,
  brakesSet: false,
  briefed: false,
  caught: false,
  chocksIn: true,
  chocksOut: true,
  clearOfAircraft: false,
  clearToStart: false,
  closeDefect: false,
  connectPower: false,
  countBlades: false,
  cranking: false,
  disconnectPower: false,
  drillEnd: false,
  fireOut: false,
  goBack: false,
  good: true,
  guardInPlace: true,
  guardWalkedAround: true,
  handlePropeller: false,
  idleSet: false,
  idling: false,
  insertChocks: false,
  lowestVolts: false,
  notAlive: false,
  notGood: false,
  onStand: false,
  override: false,
  powerConnected: false,
  powerDisconnected: true,
  present: true,
  pressureUp: false,
  propellerFree: false,
  propellerStill: false,
  read: false,
  readBack: false,
  readRunUp: false,
  readyToStart: false,
  received: true,
  release: false,
  releaseFor: false,
  releasedAbandoned: false,
  releasedCaught: false,
  removeChocks: false,
  resetCut: false,
  shelve: false,
  shutDown: false,
  startAbandoned: false,
  started: false,
  stepDone: true,
  stepLeft: false,
  stopWarm: false,
  stopped: false,
  switchesOff: false,
  unable: false,
  willComply: true,
  writeDefect: false,
  writeReason: false,
};

/**
 * Returns the index of the answer that a remote gives to this ask. Null when no answer or more than one could be meant,
 * and for an answer that needs an entry.
 */
export function thumbAnswer({ choices }: Pick<Ask, "choices">): number | null {
  const may = choices.flatMap((c, i) => (c.need === null && THUMB[c.word] ? [i] : []));
  const [only = null, ...others] = may;
  return others.length === 0 ? only : null;
}
