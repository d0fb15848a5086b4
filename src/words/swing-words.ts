// How a swing looks, in the words a pilot uses: wide and slow, small and fast.

const SLOW = 4; // Hz, the eye follows every swing below it. Ours, no source.
const FAST = 8; // Hz, above it a swing is a shiver. Ours, no source.
const WIDE = 2; // deg rms, where the sweep sets no limit of its own

export interface Swing {
  readonly width: "wide" | "moderate" | "small";
  readonly pace: "slow" | "brisk" | "fast";
}

/** From the wobble's angle (deg rms) against its limit, and its frequency (Hz; null: too few swings to count). */
export function swingOf(angle: number, frequency: number | null, limit: number | null): Swing {
  const wide = limit ?? WIDE;
  return {
    width: angle > wide ? "wide" : angle > wide / 2 ? "moderate" : "small",
    pace: frequency === null || frequency < SLOW ? "slow" : frequency < FAST ? "brisk" : "fast",
  };
}

/** "wide and slow". */
export const swingWords = ({ width, pace }: Swing): string => `${width} and ${pace}`;
