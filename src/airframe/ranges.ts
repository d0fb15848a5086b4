// Ranges that decide the cost of a trial, the same for a model file and for the model in a map.

export const ROTORS = [4, 8] as const;
export const RATE = ["500 Hz", "32 kHz"] as const;
export const LATENCY = ["0 ms", "20 ms"] as const;
export const SUBSTEPS = [1, 32] as const;
export const STAGES = [0, 4] as const;
export const CUTOFF = ["5 Hz", "16 kHz"] as const;
export const NOTCHES = [0, 4] as const;
export const NOTCH_CENTRE = ["10 Hz", "16 kHz"] as const;
export const NOTCH_WIDTH = ["1 Hz", "4 kHz"] as const;
/** Share of where the centre stands. */
export const TRACKING_WIDTH = ["2 %", "100 %"] as const;
export const SCHEDULE_ROWS = [1, 33] as const;
export const DUTY_ROWS = [2, 17] as const;
export const PACK_CUTOFF = ["0.01 Hz", "1 kHz"] as const;
export const GAIN_FACTOR = [0.05, 20] as const;
export const VIBRATIONS = [0, 8] as const;
export const HARMONIC = [0.1, 20] as const;
/** Numbers that may go together: the work grows with their cube. */
export const MOST_TOGETHER = 100;
/** Pairs that so many numbers make. */
export const MOST_PAIRS = (MOST_TOGETHER * (MOST_TOGETHER - 1)) / 2;
