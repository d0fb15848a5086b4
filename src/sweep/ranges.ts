// Ranges that decide the cost of a run, the same for a sweep file and for the sweep in a map.

export const SHORTEST = 0.9; // s, of a script
export const LONGEST = 10; // s
export const MOST_INSTANTS = 64; // of a timeline
export const MOST_GUSTS = 8;
export const MOST_SCRIPTS = 32;
export const MOST_LEVELS = 16; // of throttle
export const MOST_RATES = 16;
export const MOST_CONDITIONS = 16;
export const MOST_CHANGES = 16; // of the model, each with a map of its own
export const MOST_STRIP_SCRIPTS = 8;
/** Gains of a strip, at least and at most. */
export const STRIP_POINTS = [6, 40] as const;

/** Models drawn from the spreads of one, at least and at most. */
export const DRAWS = [16, 1024] as const;
