// The lines of an axis's grid, chosen from theory for `grid: auto`: as far as the sustained boundary reaches, and densest
// where the wanted margins hold.
import { at, last } from "../base/at.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { GainGrid, LineCounts } from "../sweep/sweep.js";
import { spreadLine } from "./line-spread.js";
import {
  type Ground,
  type GroundWish,
  LARGEST_D,
  type ModelLoops,
  P_RANGE,
  reachOfMost,
  safeGround,
} from "./safe-ground.js";

export interface AutoGridWish extends GroundWish {
  readonly lines: LineCounts;
  /** SI: lies inside the lines as well. */
  readonly pinned: { readonly p: number; readonly d: number } | null;
}

/** Beyond the furthest boundary and the pinned tune, so that they and a little more lie inside. */
const BEYOND = 1.1;
/** The lines on either side of the fold: between them the boundary is drawn half way. */
const FOLD = { before: 0.96, beyond: 1.04 };

/**
 * Lines of P and D, SI, for a craft that may be any of the models; null where none of them is stable at any gains. The
 * last P lies above the worst-case boundary at every D, and the last D beyond its fold, in 95 % of the models.
 */
export function autoGrid(models: readonly ModelLoops[], wish: AutoGridWish): GainGrid | null {
  const reach = reachOfMost(models, wish.i);
  if (reach === null) return null;
  const [top, fold] = [Math.min(P_RANGE.to, BEYOND * reach.p), Math.min(LARGEST_D, FOLD.beyond * reach.d)];
  const ground = safeGround(models, wish, { p: top, d: fold });
  const pinned = wish.pinned === null ? null : { p: wish.pinned.p / P_UNIT, d: wish.pinned.d / D_UNIT };
  const range = {
    bottom: Math.min(lowestP(ground, top), pinned === null ? top : pinned.p / BEYOND),
    top: Math.max(top, BEYOND * (pinned?.p ?? 0)),
    lastD: Math.max(fold, BEYOND * (pinned?.d ?? 0)),
    nearFold: FOLD.before * reach.d,
  };
  const { p, d } = focusedLines(ground, range, wish.lines);
  return { p: p.map((gain) => gain * P_UNIT), d: d.map((gain) => gain * D_UNIT) };
}

/** Not further below safe ground than a first climb would start: there everything is loose. */
const LOWEST_SHARE = 0.1;
const UNDER_SAFE = 0.7;

function lowestP({ p, share }: Ground, top: number): number {
  const safe = p.filter((_, column) => share.some((row) => at(row, column) > 0));
  if (safe.length === 0) return Math.max(P_RANGE.from, LOWEST_SHARE * top);
  return Math.max(P_RANGE.from, UNDER_SAFE * at(safe, 0), LOWEST_SHARE * last(safe));
}

interface Range {
  readonly bottom: number;
  readonly top: number;
  readonly lastD: number;
  readonly nearFold: number;
}

interface Lines {
  readonly p: readonly number[];
  readonly d: readonly number[];
}

/** Shares of the lines that follow safe ground, tried in turn; the rest spreads over all of the range. */
const FOCUS = { first: 0.7, sharper: [0.8, 0.9] };
/** Share of points in or next to ground with the margins: trials narrow it, and a sixth shall remain. */
const ENOUGH_SAFE = 0.35;

function focusedLines(ground: Ground, range: Range, lines: LineCounts): Lines {
  const { first, sharper } = FOCUS;
  const enough = (found: Lines) => safeShare(ground, found) >= ENOUGH_SAFE;
  return sharper.reduce(
    (found, focus) => (enough(found) ? found : linesFor(ground, range, lines, focus)),
    linesFor(ground, range, lines, first),
  );
}

function linesFor(
  { p, d, share }: Ground,
  { bottom, top, lastD, nearFold }: Range,
  lines: LineCounts,
  focus: number,
): Lines {
  const [pCells, dCells] = [cells(p), cells(d)];
  // More P turns disturbances away better and answers sooner: the upper part of safe ground is where a tune is looked for.
  const worth = share.map((row, i) => row.map((part, j) => part * at(p, j) * at(pCells, j) * at(dCells, i)));
  const alongP = p.map((_, j) => worth.reduce((sum, row) => sum + at(row, j), 0) / at(pCells, j));
  const alongD = d.map((_, i) => at(worth, i).reduce((sum, one) => sum + one, 0) / at(dCells, i));
  return {
    p: spreadLine({ node: p, weight: widened(alongP) }, [bottom, top], lines.p, focus),
    d: spreadLine({ node: d, weight: widened(alongD) }, [0, nearFold, lastD], lines.d, focus),
  };
}

/** Width about each node. */
const cells = (line: readonly number[]): number[] =>
  line.map((_, k) => 0.5 * (at(line, Math.min(k + 1, line.length - 1)) - at(line, Math.max(k - 1, 0))));

/** Next to safe ground counts as well. */
const widened = (weights: readonly number[]): number[] =>
  weights.map((_, k) => Math.max(...weights.slice(Math.max(0, k - 1), k + 2)));

/** Share of the points that keep the margins in most models, or lie beside one that does. */
function safeShare({ p, d, share }: Ground, lines: Lines): number {
  const nearest = (line: readonly number[], value: number) =>
    line.reduce((best, one, k) => (Math.abs(one - value) < Math.abs(at(line, best) - value) ? k : best), 0);
  const columns = lines.p.map((value) => nearest(p, value));
  const safe = lines.d.map((value) => {
    const row = at(share, nearest(d, value));
    return columns.map((column) => at(row, column) >= 0.5);
  });
  return besideShare(safe);
}

/** Share of the points, [d][p], that are true or have one of eight neighbours that is. */
export function besideShare(points: readonly (readonly boolean[])[]): number {
  const around = <T>(list: readonly T[], k: number) => list.slice(Math.max(0, k - 1), k + 2);
  const near = points.flatMap((row, i) =>
    row.map((_, j) => around(points, i).some((one) => around(one, j).some(Boolean))),
  );
  return near.filter(Boolean).length / near.length;
}
