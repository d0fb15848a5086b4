// In how many draws each point is safe: theory's margins in every draw, and trials of what can decide.
import { at } from "../base/at.js";
import { NOBODY } from "../map/decider.js";
import { type Ask, sustains, type TrialRequest, type TrialTable } from "../map/trials.js";
import { isClean, type Limits } from "../map/verdict.js";
import { type TrialRow, worstPoint } from "../map/worst.js";
import type { GainGrid } from "../sweep/sweep.js";
import type { Candidates } from "./candidates.js";
import type { DrawTheory } from "./draw-theory.js";

export interface SafeDrawsInput {
  readonly lines: GainGrid;
  readonly grid: ReadonlyMap<number, TrialTable>;
  readonly limits: Limits;
  readonly candidates: Candidates;
  /** Of each draw of the plan. */
  readonly theory: readonly DrawTheory[];
  /** Which of them are judged; left out: all. */
  readonly draws?: readonly number[];
  readonly ask: Ask;
  readonly yieldIfDue: () => Promise<void>;
}

export interface SafeDraws {
  /** Per point. */
  readonly counts: Uint16Array;
  /** Trials simulated in the draws. */
  readonly trials: number;
}

/** Points in draws judged at once: enough for every worker, few enough to hold, each with a request and an answer per trial. */
const BATCH = 12_000;
/** Variants with the least room that are simulated first: most points that fail do so there. */
const FIRST = 4;

export async function safeDraws(input: SafeDrawsInput): Promise<SafeDraws> {
  const { lines, candidates, theory, draws = [...theory.keys()] } = input;
  const counts = new Uint16Array(lines.p.length * lines.d.length);
  const gains = candidates.points.map((point) => gainsAt(lines, point));
  const batch = Math.max(1, Math.floor(BATCH / Math.max(1, gains.length))); // draws
  let trials = 0;
  for (let from = 0; from < draws.length; from += batch) {
    const open: OpenPoint[] = [];
    for (const draw of draws.slice(from, from + batch)) {
      await input.yieldIfDue();
      const held = at(theory, draw).haveMargins(gains);
      for (const [k, point] of candidates.points.entries()) {
        const [p, d] = at(gains, k);
        if (held[k] === 1) open.push({ draw, point, p, d, rows: [] });
      }
    }
    const first = await simulated(input, open, (deciding) => deciding.slice(0, FIRST));
    const left = open.filter((one) => !failsAlready(one, input.limits));
    const rest = await simulated(input, left, (deciding) => deciding.slice(FIRST));
    trials += first + rest;
    for (const one of left) if (isSafe(one, input)) counts[one.point] = at(counts, one.point) + 1;
  }
  return { counts, trials };
}

/** A point in a draw, with the trials simulated there so far. */
interface OpenPoint {
  readonly draw: number;
  readonly point: number;
  readonly p: number;
  readonly d: number;
  readonly rows: TrialRow[];
}

const gainsAt = ({ p, d }: GainGrid, point: number): readonly [p: number, d: number] => [
  at(p, point % p.length),
  at(d, Math.floor(point / p.length)),
];

/** Simulates the chosen variants of each point; returns how many trials. */
async function simulated(
  { candidates, ask }: SafeDrawsInput,
  open: readonly OpenPoint[],
  chosen: (deciding: readonly number[]) => readonly number[],
): Promise<number> {
  const pairs = open.flatMap((one) =>
    chosen(candidates.deciding.get(one.point) ?? []).map((variant) => ({ one, variant })),
  );
  // By draw, then by variant: what shares a trial setup comes together.
  pairs.sort((a, b) => a.one.draw - b.one.draw || a.variant - b.variant);
  const requests = pairs.map(({ one: { draw, p, d }, variant }): TrialRequest => ({ variant, p, d, draw }));
  const table = await ask(requests);
  for (const [row, { one, variant }] of pairs.entries()) one.rows.push({ variant, table, row });
  return requests.length;
}

const failsAlready = ({ rows }: OpenPoint, limits: Limits): boolean =>
  rows.some(({ table, row }) => sustains(table, row)) || !isClean(worstPoint(rows), NOBODY, limits);

/** Variants that were comfortable stand in as the model as it is written has them. */
function isSafe({ point, rows }: OpenPoint, { grid, limits }: SafeDrawsInput): boolean {
  if (rows.some(({ table, row }) => sustains(table, row))) return false;
  const own = new Set(rows.map(({ variant }) => variant));
  const others = [...grid].flatMap(([variant, table]) => (own.has(variant) ? [] : [{ variant, table, row: point }]));
  return isClean(worstPoint([...rows, ...others]), NOBODY, limits);
}
