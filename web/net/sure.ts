/** A supervisor's word that somebody on duty is to be cut off, with the PIN that the server checks. */
export interface Sure {
  confirm: true;
  pin: string;
}
