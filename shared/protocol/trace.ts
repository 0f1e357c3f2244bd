/** Samples one record of a meter may hold: more than a starter's engagement at a hundredth of a second. */
export const TRACE_SAMPLES = 2000;
