// A tune to hold others against, found by theory alone: the most P that keeps a starting tune's margins at every place.
import type { AxisGains } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import { exp, ln } from "../base/elementary.js";
import { type Range, ultimateGain } from "./boundary.js";
import type { LoopPieces } from "./pieces.js";
import { haveMargins, type WantedMargins } from "./wanted-margins.js";

/**
 * Margins asked for, the next where no P and D have the first. Starting tunes of the shipped maps have 10 to 12 dB and 56 to 60
 * degrees; 6 dB and 45 degrees: common practice for aircraft.
 */
const ASKED: readonly WantedMargins[] = [
  { gain: 10, phase: (55 * Math.PI) / 180 },
  { gain: 6, phase: Math.PI / 4 },
  { gain: 3, phase: Math.PI / 6 },
  { gain: 1, phase: Math.PI / 18 },
];

/** Of P over the P at which the loop gives out without D; of D over P, in periods of the oscillation there. */
const P_SPAN: Range = { from: 1 / 16, to: 4 };
const D_SPAN: Range = { from: 1 / 400, to: 1 };
const P_LINES = 40;
const D_LINES = 36;
/** P (fraction per rad/s) is looked for from almost none to what turns a craft at once. */
const ANY_P: Range = { from: 1e-6, to: 1e4 };

/** Null where no P and D keep even the least margins asked for. `i`: fraction per rad. */
export function referenceTune(loops: readonly LoopPieces[], i: number): AxisGains | null {
  const ends = loops.flatMap((loop) => ultimateGain(loop, 0, 0, ANY_P).filter(({ perGrowth }) => perGrowth > 0));
  const end = ends.reduce<(typeof ends)[number] | null>(
    (least, one) => (least === null || one.p < least.p ? one : least),
    null,
  );
  if (end === null) return null;
  const period = (2 * Math.PI) / end.frequency;
  const gains = spaced(D_SPAN, D_LINES).flatMap((ratio) =>
    spaced(P_SPAN, P_LINES).map((factor) => ({ p: factor * end.p, i, d: factor * end.p * ratio * period })),
  );
  for (const wanted of ASKED) {
    const found = stiffest(haveMargins(loops, gains, wanted));
    if (found !== null) return at(gains, found);
  }
  return null;
}

const spaced = ({ from, to }: Range, lines: number): number[] =>
  Array.from({ length: lines }, (_, k) => from * exp((k / (lines - 1)) * ln(to / from)));

/** Of the marked places with the most P the middle one; null where none is marked. */
function stiffest(marked: Uint8Array): number | null {
  const places = [...marked.keys()].filter((place) => marked[place] === 1);
  const most = Math.max(...places.map(column));
  const best = places.filter((place) => column(place) === most);
  return best.length === 0 ? null : at(best, Math.floor(best.length / 2));
}

const column = (place: number): number => place % P_LINES;
