// The signs of the line charts: the same ones in every chapter, and in the one legend they share.
import type { Role } from "./ink.js";

interface LineSign {
  readonly role: Role;
  readonly width: number; // px
  readonly dash?: readonly number[];
}

/** From the highest throttle down: the nearest limit is drawn strongest. The worst of all has the sign of the highest. */
export const THROTTLE_SIGNS: readonly [LineSign, ...LineSign[]] = Object.freeze([
  { role: "ink", width: 2.6 },
  { role: "contour", width: 2, dash: [8, 4] },
  { role: "contour", width: 2, dash: [1, 4.5] },
  { role: "soft", width: 1.3 },
]);

/** The worst of the manoeuvres that drive the motors to their limits. */
export const HARD_SIGN: LineSign = Object.freeze({ role: "warn", width: 2, dash: [9, 3, 2, 3] });

/** `rank` 0: the highest throttle. */
export const throttleStroke = (rank: number): LineSign =>
  THROTTLE_SIGNS[Math.min(rank, THROTTLE_SIGNS.length - 1)] ?? THROTTLE_SIGNS[0];
