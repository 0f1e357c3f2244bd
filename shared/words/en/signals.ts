interface SignalWords {
  /** For a kind, or a signal, without an engine. */
  plain: string;
  /** `{n}` is the engine's number. */
  engine: string;
  /** Asks an addressed post for its answer. A kind without it asks nobody. */
  asks?: string;
  /** Asks in its place where the signal names no engine. */
  asksPlain?: string;
}

/** Every kind of signal in words. A key is the kind, and the order is that of `SIGNAL_KINDS`. */
export const signals = {
  readyToStart: { plain: "Ready to start", engine: "Ready to start number {n}" },
  clearToStart: {
    plain: "Clear to start",
    engine: "Clear to start number {n}",
    asks: "Clear to start number {n}. Read back: which engine?",
  },
  cranking: { plain: "Cranking", engine: "Cranking number {n}" },
  caught: { plain: "Caught", engine: "Number {n} caught" },
  started: { plain: "Started", engine: "Number {n} started and stable" },
  startAbandoned: { plain: "Start abandoned", engine: "Start of number {n} abandoned" },
  shutDown: { plain: "Shut down", engine: "Number {n} shut down" },
  revokeClearance: { plain: "Clearance taken back", engine: "Clearance for number {n} taken back" },
  turning: {
    plain: "Engine turning",
    engine: "Number {n} is turning without clearance",
    asks: "Number {n} is turning without clearance. Hold.",
  },
  guardInPlace: { plain: "Guard in place", engine: "Guard in place at number {n}" },
  arcClear: { plain: "Arc clear", engine: "Arc clear at number {n}" },
  arcNotClear: { plain: "Arc not clear", engine: "Arc not clear at number {n}" },
  guardAway: { plain: "Guard leaving the engine", engine: "Guard leaving number {n}" },
  peopleAtAircraft: { plain: "People at the aircraft", engine: "People at number {n}" },
  hold: { plain: "Hold", engine: "Hold, number {n}", asks: "Hold. Stop all new action." },
  release: { plain: "Hold released", engine: "Hold released, number {n}" },
  cut: { plain: "Cut", engine: "Cut number {n}", asks: "Cut number {n}." },
  cutAll: { plain: "Cut all engines", engine: "Cut all engines", asks: "Cut all engines." },
  resetCut: { plain: "Cut ended", engine: "Cut ended, number {n}" },
  fire: {
    plain: "Fire",
    engine: "Fire at number {n}",
    asks: "Fire reported at number {n}.",
    asksPlain: "Fire reported.",
  },
  fireAt: { plain: "Fire located", engine: "Fire located at number {n}" },
  disregard: {
    plain: "Disregard",
    engine: "Disregard, number {n}",
    asks: "{d}: sent by mistake. Disregard it.",
  },
  fireOut: { plain: "Fire out", engine: "Fire out at number {n}" },
  connectPower: {
    plain: "Connect ground power",
    engine: "Connect ground power",
    asks: "Ground power asks to connect.",
  },
  powerConnected: {
    plain: "Ground power on",
    engine: "Lowest volts, cranking number {n}",
    asks: "Ground power is on. Read your bus volts.",
  },
  disconnectPower: {
    plain: "Disconnect ground power",
    engine: "Disconnect ground power",
    asks: "Disconnect ground power.",
  },
  powerDisconnected: {
    plain: "Ground power off and unplugged",
    engine: "Ground power off and unplugged",
    asks: "Ground power is off and unplugged.",
  },
  insertChocks: { plain: "Insert chocks", engine: "Insert chocks", asks: "Insert the chocks." },
  chocksIn: { plain: "Chocks in", engine: "Chocks in", asks: "Chocks are in." },
  removeChocks: { plain: "Remove chocks", engine: "Remove chocks", asks: "Remove the chocks." },
  chocksOut: {
    plain: "Chocks out and shown",
    engine: "Chocks out and shown",
    asks: "Chocks are out and shown.",
  },
  clearOfAircraft: { plain: "Clear of the aircraft", engine: "Clear of the aircraft" },
  handlePropeller: {
    plain: "Ask ignition off: hands on the propeller",
    engine: "Ask ignition off: hands on the propeller of number {n}",
    asks: "Hands on the propeller of number {n}? Confirm ignition and mixture off.",
  },
  propellerFree: { plain: "Hands off the propeller", engine: "Hands off the propeller of number {n}" },
  propellerStill: { plain: "Propeller seen still", engine: "Propeller of number {n} seen still" },
  brakesSet: { plain: "Brakes set", engine: "Brakes set" },
  brakesReleased: { plain: "Brakes released", engine: "Brakes released" },
  onStand: { plain: "On the stand", engine: "On the stand", asks: "You stand on your place. Stop here." },
  idleFaster: { plain: "Idle set faster", engine: "Idle of number {n} set faster" },
  coolDown: { plain: "Engines idle to cool down", engine: "Engines idle to cool down" },
  switchesOff: { plain: "Switches proved off", engine: "Switches proved off" },
  allClear: { plain: "All clear", engine: "All clear", asks: "All clear." },
  negative: { plain: "Negative", engine: "Negative, number {n}" },
} satisfies Record<string, SignalWords>;
