// Where a pass finds what it is given and leaves what it has read: one number per lane and place.

export const CENTRE_INDEX = 0; // given: place of the last sample as seen from the middle one
export const SPREAD = 1; // given: sum of the squares of all samples' places
export const COUNT = 2; // given: samples
export const QUIET = 3; // given: rad/s below which an error counts for none
export const HALF_SWING = 4; // rad/s
export const LARGEST_DEVIATION = 5; // attitude deviation, rad/s times half control periods, as all deviations here
export const LAST_BEYOND = 6; // samples after the first to the last that is beyond the band
export const DEVIATION_SQUARES = 7; // about the straight line through them
export const ERROR_SUM = 8; // rad/s
export const ERROR_SQUARES = 9; // (rad/s)^2
export const EARLY_ENERGY = 10; // (rad/s)^2
export const LATE_ENERGY = 11; // (rad/s)^2
export const PASSAGES = 12; // of the change from sample to sample through 0, and where the first and the last two are, samples
export const FIRST_PASSAGE = 13;
export const PASSAGE_BEFORE_LAST = 14;
export const LAST_PASSAGE = 15;
export const SUMS_SIZE = 16;
