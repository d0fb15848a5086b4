// The speeds of the rotors over time, each in a strip of its own on one scale, named by its place: lines over one another
// cannot be told from each other.
import type { Airframe } from "../../airframe/airframe.js";
import { count } from "../../words/numbers.js";
import { path, rule, stroke, text } from "./chart-parts.js";
import { rangeOf } from "./scale.js";

const RPM = 60 / (2 * Math.PI);
const [LANE, GAP] = [34, 6]; // px

export const lanesHeight = (rotors: number): number => rotors * (LANE + GAP) - GAP;

/** "1 front right": a number and where the rotor stands, seen from above. */
export function rotorNames({ rotors }: Pick<Airframe, "rotors">): string[] {
  return rotors.map(({ at: [forward, left] }, k) => {
    const reach = Math.hypot(forward, left);
    const share = (side: number) => Math.abs(side) > SLANT * reach;
    const words = [share(forward) && (forward > 0 ? "front" : "rear"), share(left) && (left > 0 ? "left" : "right")];
    return [k + 1, ...words.filter((word) => word !== false)].join(" ");
  });
}

const SLANT = 0.38; // sine of 22.5 degrees: less aside than that is straight ahead

/** Speeds in rad/s; `x` takes a share of the time. */
export function rotorLanes(
  speeds: readonly Float64Array[],
  names: readonly string[],
  x: (share: number) => number,
  top: number,
): SVGElement[] {
  const turning = speeds.map((series) => series.map((value) => RPM * value));
  const [low, high] = rangeOf(...turning);
  const [left, right] = [x(0), x(1)];
  const title = `rotor speeds, each strip from ${count(low)} to ${count(high)} rpm`;
  return [
    text(left, top - 7, title, "start", "ink"),
    ...turning.flatMap((values, k) => {
      const bottom = top + k * (LANE + GAP) + LANE;
      const y = (value: number) => bottom - ((value - low) / (high - low)) * LANE;
      return [
        rule(left, right, bottom),
        stroke(path(values, x, y), { role: "ink", width: 1.1, dash: "" }),
        text(right + 6, bottom - LANE / 2 + 4, names[k] ?? `${k + 1}`, "start", "ink"),
      ];
    }),
  ];
}
