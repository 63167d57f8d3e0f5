/** Limits of the labour inputs, in columns and conditions alike. Beyond them is a slip of the unit. */

/** a week */
export const MOST_MINUTES = 10_080;
/** readings, breaks */
export const MOST_OF_A_KIND = 100;
export const MOST_ACCESS = 20;
export const MOST_TECHNICIANS = 1000;
