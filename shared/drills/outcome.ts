/** The outcome of a drill that ends because every step was worked. Any other outcome is in the person's own words. */
export const WORKED_THROUGH = "worked through";

/** The outcome of a drill whose fire was taken back as a slip. */
export const WAS_A_SLIP = "the fire was a slip";
