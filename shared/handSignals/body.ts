/**
 * The figure's proportions, in hundredths of its height: the segment lengths of Drillis and Contini (1966) as commonly
 * reprinted in biomechanics textbooks (from memory). Hands are drawn a quarter longer than in life, so that a reader
 * sees their shape at a glance.
 */
export const BODY = {
  shoulderHalf: 12.9,
  shoulderHeight: 81.8,
  upperArm: 18.6,
  forearm: 14.6,
  hand: 13.5,
  wand: 22,
  chin: 87,
  eyes: 93.6,
  hip: 53,
  hipHalf: 9,
  knee: 28.5,
} as const;
