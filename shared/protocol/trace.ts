/** Most samples that one trace may hold: more than one engagement of a starter at 100 samples a second. */
export const TRACE_SAMPLES = 2000;
