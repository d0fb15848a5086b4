// Where a pass finds what it is given and leaves what it has read: one number per lane and place.

export const HALF_LENGTH = 0; // place of the last sample as seen from the middle one
export const SPREAD = 1; // sum of the squares of all samples' places
export const COUNT = 2; // samples
export const QUIET = 3; // rad/s below which an error counts for none
export const LAST_BEYOND = 11; // samples after the first to the last that is beyond the band
export const HALF_SWING = 12; // rad/s
export const LARGEST_ERROR = 4; // rad/s
export const LARGEST_DEVIATION = 5; // attitude deviation, rad/s times half control periods, as all deviations here
export const DEVIATION_SQUARES = 6; // about the straight line through them
export const ERROR_SUM = 7; // rad/s
export const ERROR_SQUARES = 8; // (rad/s)^2
export const EARLY_ENERGY = 9; // (rad/s)^2
export const LATE_ENERGY = 10; // (rad/s)^2
export const SUMS_SIZE = 13;
