// Gains that hold an axis with its I in the loop, as weakly as the wanted margins allow.
import type { AxisGains } from "../airframe/airframe.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { LoopPieces } from "../theory/pieces.js";
import { roomOf } from "./room.js";
import type { SoftHold } from "./soft-hold.js";

export interface Hold {
  readonly gains: AxisGains;
  /** Least share of the wanted margins, see roomOf. */
  readonly room: number;
}

/** Preferred numbers, IEC 60063 series E24: ten per cent apart, and short to read. */
const SERIES = [
  1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
];
const LINE = [0.01, 0.1, 1, 10, 100].flatMap((decade) =>
  SERIES.map((step) => Number((decade * step).toPrecision(2)) * P_UNIT),
);

/** A P weaker than this share of the soft P cannot make use of I. */
const WEAKEST = 0.25;
/** D per P that are tried, as shares of the loop's lag: from hardly any to more than its rotors can use. */
const LEADS = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2];
/** Allowance for the error of the coarse grid. */
const ENOUGH = 1.005;
/** Times I is halved before it is left out. */
const HALVINGS = 6;

/**
 * The soft P where that is enough; else the least P with D 0, then with the least D, that leaves the wanted margins;
 * else the pair with the most room. Where none is stable, the same with less I.
 */
export function chooseHold(loops: readonly LoopPieces[], soft: SoftHold, i: number): Hold {
  let best = chooseWithI(loops, soft, i);
  for (let halving = 1; best.room === 0 && i > 0 && halving <= HALVINGS; halving++)
    best = ifMarginsHold(chooseWithI(loops, soft, i / 2 ** halving));
  return best.room === 0 ? chooseWithI(loops, soft, 0) : best;
}

/** A hold that gave up I must have the full margins in return. */
const ifMarginsHold = (hold: Hold): Hold => (hold.room >= 1 ? hold : { ...hold, room: 0 });

function chooseWithI(loops: readonly LoopPieces[], soft: SoftHold, i: number): Hold {
  const gains = { p: soft.p, i, d: 0 };
  const room = roomOf(loops, gains);
  if (room >= 1) return { gains, room };
  const { lag } = soft;
  const line = LINE.filter((p) => p >= WEAKEST * soft.p);
  let best: Hold = { gains, room };
  for (const lead of [0, ...LEADS]) {
    best = better(
      best,
      first(
        loops,
        line.map((p) => ({ p, i, d: short(lead * lag * p) })),
        best.room,
      ),
    );
    if (best.room >= ENOUGH) break;
  }
  return best;
}

/** The least P for a D and I that the model declares. */
export const chooseP = (loops: readonly LoopPieces[], i: number, d: number): Hold =>
  first(
    loops,
    LINE.map((p) => ({ p, i, d })),
  );

/** The P nearest to one that does not hold. */
export const nearestP = (loops: readonly LoopPieces[], { p: declared, i, d }: AxisGains): Hold => {
  const away = (p: number) => Math.max(p / declared, declared / p);
  const line = [...LINE].sort((a, b) => away(a) - away(b));
  return first(
    loops,
    line.map((p) => ({ p, i, d })),
  );
};

const better = (one: Hold, other: Hold): Hold => (other.room > one.room ? other : one);
const short = (d: number): number => Number((d / D_UNIT).toPrecision(2)) * D_UNIT;

/** The first that leaves the wanted margins, else the one with the most room. */
function first(loops: readonly LoopPieces[], candidates: readonly AxisGains[], least = 0): Hold {
  let best: Hold = { gains: candidates[0] ?? { p: 0, i: 0, d: 0 }, room: 0 };
  for (const gains of candidates) {
    best = better(best, { gains, room: roomOf(loops, gains, Math.max(best.room, least)) });
    if (best.room >= ENOUGH) break;
  }
  return best;
}
