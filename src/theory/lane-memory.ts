// Where the pass over a loop's frequencies finds what it is given and leaves what it has found: one number per lane and place.

/** Given: the factor of each piece. */
export const FACTORS = 0;
/** Pieces at most: gains that act on their own, or parts of a controller that more than one gain has a part in. */

/** Left: for each block of steps between frequencies a number for the real axis and one for the unit circle. */
export const MARKS = 6;
/** Steps between frequencies in a block: a bit each. The first is the highest. */
export const BLOCK = 32;
/** Of them one after the other without a look at a count. */
export const STEPS = 4;
export const ROUNDS = 8;
