/** No session has this id. */
export class NoSuchSession extends Error {
  override readonly name = "NoSuchSession";
}

/** The command sets a condition aside, and the person did not enter their PIN for it. */
export class PinNeeded extends Error {
  override readonly name = "PinNeeded";
}
