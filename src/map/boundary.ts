// The sustained boundary of every variant, refined below the grid by bisection with real trials, and the worst
// case over all of them. At each D a variant has a list of stable P intervals: a fold is not lost.
import { at, last } from "../base/at.js";
import { type Ask, isAtRest, isSimulated, sustains, type TrialRequest, type TrialTable } from "./trials.js";
import { usefulFirst } from "./useful.js";

/** SI gains. */
export interface Interval {
  readonly from: number;
  readonly to: number;
  /** True where the interval runs into the grid's edge. */
  readonly fromOpen: boolean;
  readonly toOpen: boolean;
  /** Width of the bracket that holds the upper and the lower end; 0 at a grid edge. */
  readonly width: readonly [upper: number, lower: number];
}

/** Of one variant: per D the stable P intervals, rising. */
export interface VariantBoundary {
  readonly variant: number;
  readonly perD: readonly (readonly Interval[])[];
  /** Its script does not move the axis: that a trial dies out says nothing. */
  readonly atRest?: true;
}

interface Bracket {
  readonly variant: number;
  readonly row: number; // D
  readonly lowIsStable: boolean;
  low: number;
  high: number;
  /** P of the grid between the two that were left out, rising: they are tried first, so that the bracket becomes a cell. */
  between: readonly number[];
}

export interface BoundaryInput {
  readonly p: readonly number[];
  readonly d: readonly number[];
  /** Grid results per variant, trial index d * p.length + p; the first and the last P of every D are simulated. */
  readonly grid: ReadonlyMap<number, TrialTable>;
  /** Relative bracket width at which to stop. */
  readonly tolerance: number;
  /** Variants whose brackets are halved further, to a width of their own. */
  readonly finer?: { readonly variants: ReadonlySet<number>; readonly tolerance: number };
}

/** Bisects every change between neighbouring P that were simulated until its bracket is narrower than the tolerance. */
export async function findBoundaries(input: BoundaryInput, ask: Ask): Promise<VariantBoundary[]> {
  const brackets = [...input.grid].flatMap(([variant, table]) => changes(variant, table, input));
  const tolerance = (variant: number) =>
    input.finer?.variants.has(variant) === true ? input.finer.tolerance : input.tolerance;
  for (;;) {
    const open = brackets.filter(
      ({ variant, low, high, between }) => between.length > 0 || high - low > tolerance(variant) * high,
    );
    if (open.length === 0) break;
    const middles = open.map(
      (bracket): TrialRequest => ({ variant: bracket.variant, p: middleOf(bracket), d: at(input.d, bracket.row) }),
    );
    const table = await ask(middles);
    for (const [trial, bracket] of open.entries()) {
      const { p } = at(middles, trial);
      if (!sustains(table, trial) === bracket.lowIsStable) bracket.low = p;
      else bracket.high = p;
      bracket.between = bracket.between.filter((gain) => gain > bracket.low && gain < bracket.high);
    }
  }
  return [...input.grid].map(([variant, table]) => ({
    variant,
    perD: input.d.map((_, row) => intervals(variant, row, input, brackets)),
    // A script that moves the axis moves it in every trial: where one is at rest, only rounding grew in the others.
    ...(table.outcome.some((_, trial) => isAtRest(table, trial)) ? { atRest: true as const } : {}),
  }));
}

const middleOf = ({ low, high, between }: Bracket): number =>
  between.length > 0 ? at(between, between.length >> 1) : 0.5 * (low + high);

function changes(variant: number, table: TrialTable, { p, d }: BoundaryInput): Bracket[] {
  const columns = [...p.keys()];
  return d.flatMap((_, row) => {
    const simulated = columns.filter((column) => isSimulated(table, row * p.length + column));
    return simulated.slice(1).flatMap((column, k): Bracket[] => {
      const before = at(simulated, k);
      const lowIsStable = !sustains(table, row * p.length + before);
      if (lowIsStable !== sustains(table, row * p.length + column)) return [];
      const between = p.slice(before + 1, column);
      return [{ variant, row, lowIsStable, low: at(p, before), high: at(p, column), between }];
    });
  });
}

function intervals(variant: number, row: number, { p, grid }: BoundaryInput, brackets: readonly Bracket[]): Interval[] {
  const mine = brackets.filter((bracket) => bracket.variant === variant && bracket.row === row);
  const table = grid.get(variant) as TrialTable;
  const ends: { at: number; open: boolean; width: number }[] = mine.map(({ low, high }) => ({
    at: 0.5 * (low + high),
    open: false,
    width: high - low,
  }));
  if (!sustains(table, row * p.length)) ends.unshift({ at: at(p, 0), open: true, width: 0 });
  if (!sustains(table, row * p.length + p.length - 1)) ends.push({ at: last(p), open: true, width: 0 });
  const found: Interval[] = [];
  for (let i = 0; i + 1 < ends.length; i += 2) {
    const [lower, upper] = [at(ends, i), at(ends, i + 1)];
    found.push({
      from: lower.at,
      to: upper.at,
      fromOpen: lower.open,
      toOpen: upper.open,
      width: [upper.width, lower.width],
    });
  }
  return found;
}

/** A P range that every variant survives at one D, with what ends it on each side: a variant, or theory by its code. */
export interface WorstInterval {
  readonly from: number;
  readonly to: number;
  readonly fromOpen: boolean;
  readonly toOpen: boolean;
  readonly fromBy: number;
  readonly toBy: number;
  /** Ranges apart from this one that every variant survives as well, rising; left out where there are none. */
  readonly others?: readonly WorstInterval[];
}

/** `never`: no P is stable; the code of what ends the last stable range. */
export type RowBoundary = WorstInterval | { readonly never: number };

/** The range common to all variants that counts at D index `row`; where there is none, the variant that ends first. */
export function worstInterval(boundaries: readonly VariantBoundary[], row: number): RowBoundary {
  return usefulRange(commonIntervals(boundaries, row)) ?? { never: at(firstToEnd(boundaries, row), 0) };
}

/** Every range common to all variants at D index `row`, rising. */
export function commonIntervals(boundaries: readonly VariantBoundary[], row: number): WorstInterval[] {
  let common: WorstInterval[] = [
    { from: 0, to: Number.POSITIVE_INFINITY, fromOpen: true, toOpen: true, fromBy: -1, toBy: -1 },
  ];
  for (const { variant, perD } of boundaries)
    common = common.flatMap((range) => at(perD, row).flatMap((interval) => overlap(range, interval, variant)));
  return common;
}

/** Of several ranges the one that counts, the rest in `others`; null where there is none. */
export function usefulRange(ranges: readonly WorstInterval[]): WorstInterval | null {
  const [first, ...rest] = usefulFirst(ranges);
  if (first === undefined) return null;
  return rest.length === 0 ? first : { ...first, others: rest };
}

/** Variants by the P at which the stable interval that counts ends, those that have none first. */
export function firstToEnd(boundaries: readonly VariantBoundary[], row: number): number[] {
  const ends = boundaries.map(({ variant, perD }) => ({ variant, to: usefulFirst(at(perD, row))[0]?.to ?? 0 }));
  return ends.sort((a, b) => a.to - b.to || a.variant - b.variant).map(({ variant }) => variant);
}

function overlap(range: WorstInterval, interval: Interval, variant: number): WorstInterval[] {
  const lower = Math.max(range.from, interval.from);
  const upper = Math.min(range.to, interval.to);
  if (lower >= upper) return [];
  const raised = !interval.fromOpen && interval.from > range.from;
  const lowered = !interval.toOpen && interval.to < range.to;
  return [
    {
      from: lower,
      to: upper,
      fromOpen: raised ? false : range.fromOpen,
      toOpen: lowered ? false : range.toOpen,
      fromBy: raised ? variant : range.fromBy,
      toBy: lowered ? variant : range.toBy,
    },
  ];
}
