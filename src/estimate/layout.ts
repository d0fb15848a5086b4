// Where the motors stand and how their propellers turn, from a layout and one or two distances.
import { cos, sin } from "../base/elementary.js";

export const LAYOUTS = [
  "quadrotor-x",
  "quadrotor-plus",
  "hexacopter-x",
  "hexacopter-plus",
  "octocopter-x",
  "octocopter-plus",
] as const;

export type Layout = (typeof LAYOUTS)[number];

const ROTORS: Readonly<Record<string, number>> = { quadrotor: 4, hexacopter: 6, octocopter: 8 };

export const rotorCount = (layout: Layout): number => ROTORS[layout.split("-")[0] ?? ""] ?? Number.NaN;

export interface RotorPlace {
  readonly x: number; // m, forward
  readonly y: number; // m, left
  readonly spin: "cw" | "ccw";
  readonly name: string;
}

/**
 * The rotors counter-clockwise from the front. A quadrotor's distances are front to rear and left to right (one is both),
 * any other's is from a motor to the one opposite; m.
 */
export function rotorPlaces(layout: Layout, distances: readonly number[]): RotorPlace[] {
  const [first = Number.NaN, second = first] = distances;
  const count = rotorCount(layout);
  const between = layout.endsWith("-x");
  const turn = (2 * Math.PI) / count;
  return Array.from({ length: count }, (_, at) => {
    const bearing = (at + (between ? 0.5 : 0)) * turn;
    // an X of four is as long and as wide as its distances, which its bearings do not tell
    const [reach, breadth] =
      layout === "quadrotor-x" ? [first / Math.SQRT2, second / Math.SQRT2] : [first / 2, second / 2];
    const [x, y] = [settled(reach * cos(bearing)), settled(breadth * sin(bearing))];
    return { x, y, spin: at % 2 === 0 ? "cw" : "ccw", name: nameOf(x, y) };
  });
}

/** Tenths of a millimetre: what a ruler tells, and no rounding of a cosine. */
const settled = (metres: number): number => Math.round(1e4 * metres) / 1e4 + 0;

function nameOf(x: number, y: number): string {
  const [ahead, aside] = [Math.abs(x), Math.abs(y)];
  const along = ahead < 0.2 * aside ? "" : x > 0 ? "front" : "rear";
  const side = aside < 0.2 * ahead ? "" : y > 0 ? "left" : "right";
  return `${along} ${side}`.trim();
}
