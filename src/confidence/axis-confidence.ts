// How sure the map of one axis is: counts per point, the boundary's band, a start that holds in the most draws, and what
// each number's knowledge is worth.
import type { Draws } from "../airframe/draws.js";
import { at } from "../base/at.js";
import { shareInterval } from "../base/binomial-interval.js";
import type { AxisFound, ConfidentAxis } from "../map/axis.js";
import type { BandPoint, Worth } from "../map/confidence-format.js";
import { roundToTwelveDigits, toDisplayD, toDisplayP } from "../map/display-units.js";
import { failuresAt, quantileOf, safeIn } from "./at-start.js";
import { type Candidates, candidatesOf } from "./candidates.js";
import type { DrawTheory, Gains } from "./draw-theory.js";
import { inMostDraws, middleOfSafe } from "./middle.js";
import { type SafeDraws, safeDraws } from "./safe-draws.js";
import { type WorthOf, worthOf } from "./worth.js";

/** Draws of the plan: the first ones choose the start, those after them judge it. */
export interface DrawSets {
  readonly choosing: readonly DrawTheory[];
  readonly judging: readonly DrawTheory[];
  /** What those that choose came to, where other machines have judged them. */
  readonly counts?: SafeDraws;
  /** Share of draws in which a safe point is safe, a fraction. */
  readonly confidence: number;
  /** The model as it is written, by the same theory. */
  readonly nominal: DrawTheory;
  /** Answered once every axis has asked, each for itself. */
  readonly worth: (gains: readonly Gains[]) => Promise<WorthDraws>;
}

/** Draws for theory alone, and per draw 1 at each of the gains asked for where it has the margins. */
interface WorthDraws {
  readonly draws: () => Promise<Draws>;
  readonly safe: readonly Uint8Array[];
}

export async function axisConfidence(found: AxisFound, sets: DrawSets): Promise<ConfidentAxis> {
  const { plan, axis, grid } = found;
  const candidates = candidatesOf(plan.sweep.grid[axis], grid, plan.sweep.limits);
  // What theory is asked for alone goes on beside the trials, in this thread while workers have those.
  const [worth, { start, counts, trials, failures }] = await Promise.all([
    worthAt(found, candidates.points, sets),
    startInDraws(found, candidates, sets),
  ]);
  const boundaries = await boundariesOf(found, sets);
  const choosing = sets.choosing.length;
  const everyTrial = found.safe.length * found.variants.length * choosing;
  const lines = plan.sweep.grid[axis];
  return {
    start,
    confidence: {
      safeDraws: lines.d.map((_, row) => [...counts.subarray(row * lines.p.length, (row + 1) * lines.p.length)]),
      safeShare: counts.filter((count) => count >= sets.confidence * choosing).length / counts.length,
      band: bandOf(lines.d, boundaries),
      start:
        start === null
          ? null
          : {
              safe: safeIn(failures),
              of: failures.length,
              interval: rounded(shareInterval(safeIn(failures), failures.length)),
            },
      worth,
      leftOut: { points: found.safe.length - candidates.points.length, trials: everyTrial - trials },
    },
    draws: boundaries.slice(choosing).map((boundary, k) => ({ boundary, startFailsBy: failures[k] ?? null })),
  };
}

/** In how many draws each point is safe, the start that follows, and per draw that judges it what forbids it. */
async function startInDraws(found: AxisFound, candidates: Candidates, sets: DrawSets) {
  const { plan, axis, variants, grid, ask, yieldIfDue } = found;
  const lines = plan.sweep.grid[axis];
  const { limits } = plan.sweep;
  const { counts, trials } =
    sets.counts ?? (await safeDraws({ lines, grid, limits, candidates, theory: sets.choosing, ask, yieldIfDue }));
  const { confidence } = sets;
  const first = sets.choosing.length;
  const start = await found.confirmed(
    inMostDraws(found, counts, { draws: first, confidence }),
    middleOfSafe(lines, counts),
  );
  const judged = { variants, limits, ask, theory: sets.judging, first };
  return { start, counts, trials, failures: start === null ? [] : await failuresAt(start, judged) };
}

/** Per draw, those that chose first, and per D; moved by as much as theory and trials differ in the model as it is written. */
async function boundariesOf(
  { plan, axis, sustained, yieldIfDue }: AxisFound,
  { choosing, judging, nominal }: DrawSets,
) {
  const { d: rows } = plan.sweep.grid[axis];
  const ratios = rows.map((d, row) => {
    const stable = at(sustained, row);
    const theory = nominal.boundary(d);
    return theory === null || "never" in stable || stable.toOpen ? 1 : stable.to / theory;
  });
  const boundaries: (number | null)[][] = [];
  for (const { boundary } of [...choosing, ...judging]) {
    await yieldIfDue();
    boundaries.push(
      rows.map((d, row) => {
        const p = boundary(d);
        return p === null ? null : toDisplayP(p * at(ratios, row));
      }),
    );
  }
  return boundaries;
}

const bandOf = (rows: readonly number[], boundaries: readonly (readonly (number | null)[])[]): BandPoint[] =>
  rows.map((d, row) => {
    const column = boundaries.map((boundary) => boundary[row] ?? null);
    const [low, middle, high] = [0.05, 0.5, 0.95].map((share) => quantileOf(column, share));
    return { d: toDisplayD(d), low: low ?? null, middle: middle ?? null, high: high ?? null };
  });

async function worthAt({ plan, axis }: AxisFound, points: readonly number[], sets: DrawSets): Promise<Worth[]> {
  const { p, d } = plan.sweep.grid[axis];
  const gains = points.map((point) => [at(p, point % p.length), at(d, Math.floor(point / p.length))] as const);
  const nominal = sets.nominal.haveMargins(gains).filter((held) => held === 1).length;
  const theory = await sets.worth(nominal === 0 ? [] : gains);
  if (nominal === 0) return [];
  const { safe } = theory;
  const draws = await theory.draws();
  const columns = draws.spreads.map((_, key) => draws.draws.map(({ values }) => at(values, key)));
  const share = (points: number) => roundToTwelveDigits(Number(((100 * points) / nominal).toPrecision(3)));
  return worthOf(safe, columns, sets.confidence)
    .map(({ gain, error }: WorthOf, key) => ({
      key: at(draws.spreads, key).key,
      gain: share(gain),
      error: share(error),
    }))
    .sort((one, other) => other.gain - one.gain);
}

const rounded = ([low, high]: readonly [number, number]): readonly [number, number] => [
  roundToTwelveDigits(Number(low.toPrecision(6))),
  roundToTwelveDigits(Number(high.toPrecision(6))),
];
