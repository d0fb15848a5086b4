// Ranges on which the cost of a run hangs, the same for a sweep that somebody wrote and for one that a map kept.

export const SHORTEST = 0.9; // s, of a script
export const LONGEST = 10; // s
export const MOST_INSTANTS = 64; // of a timeline
export const MOST_GUSTS = 8;
export const MOST_SCRIPTS = 32;
export const MOST_LEVELS = 16; // of throttle
export const MOST_RATES = 16;
export const MOST_CONDITIONS = 16;
