// The mark of each verdict as a fill, after the signs of a field map: waves for soft ground, dots for sand, strokes
// for heat, crossed strokes for rock, tufts for firm ground. They tell verdicts apart in grey print and to every eye.
import type { Verdict } from "../../base/measures.js";
import { ink, markRole } from "./ink.js";

interface Mark {
  /** Tile size, px. */
  readonly size: readonly [number, number];
  readonly stroke: number; // px; 0: filled, not stroked
  readonly path: string;
}

const dot = (x: number, y: number): string => `M${x - 1.1},${y}a1.1,1.1 0 1,0 2.2,0a1.1,1.1 0 1,0 -2.2,0z`;

const MARKS: Readonly<Record<Verdict, Mark>> = {
  sustained: { size: [8, 8], stroke: 1, path: "M0,0L8,8M8,0L0,8" },
  hot: { size: [7, 7], stroke: 1.3, path: "M-1,8L8,-1M-1,1L1,-1M6,8L8,6" },
  ringing: { size: [9, 9], stroke: 0, path: `${dot(2.25, 2.25)}${dot(6.75, 6.75)}` },
  loose: {
    size: [18, 12],
    stroke: 1.1,
    path: "M0,3q2.25,-2.6 4.5,0t4.5,0M9,9q2.25,-2.6 4.5,0t4.5,0",
  },
  clean: { size: [26, 22], stroke: 1, path: "M5,8v-4M3,8l-1.6,-2.6M7,8l1.6,-2.6M18,19v-4M16,19l-1.6,-2.6M20,19l1.6,-2.6" },
};

export const patternId = (prefix: string, verdict: Verdict): string => `${prefix}-${verdict}`;

/** `<pattern>` definitions of all verdicts, ids prefixed so that several figures share a page. */
export function patternDefs(prefix: string): string {
  return (Object.keys(MARKS) as Verdict[]).map((verdict) => definition(prefix, verdict)).join("");
}

function definition(prefix: string, verdict: Verdict): string {
  const { size, stroke, path } = MARKS[verdict];
  const colour = ink(markRole(verdict));
  const paint = stroke === 0 ? `fill="${colour}"` : `fill="none" stroke="${colour}" stroke-width="${stroke}" stroke-linecap="round"`;
  return (
    `<pattern id="${patternId(prefix, verdict)}" patternUnits="userSpaceOnUse" width="${size[0]}" height="${size[1]}">` +
    `<path d="${path}" ${paint}/></pattern>`
  );
}

/** A small legend tile: the verdict's colour under its mark. */
export function swatch(prefix: string, verdict: Verdict): string {
  return (
    `<svg class="swatch" viewBox="0 0 44 26" width="44" height="26" aria-hidden="true"><defs>${definition(prefix, verdict)}</defs>` +
    `<rect width="44" height="26" fill="${ink(verdict)}"/><rect width="44" height="26" fill="url(#${patternId(prefix, verdict)})"/></svg>`
  );
}
