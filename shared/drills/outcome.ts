/** The outcome of a drill that ends because every step was worked. Any other outcome is in the person's own words. */
export const WORKED_THROUGH = "worked through";
