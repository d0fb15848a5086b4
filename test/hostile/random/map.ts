// Whole maps drawn from a seed, as the reader would take them: whatever the tables, the boundaries and the tunes say.
// What belongs to no axis is that of a map that was simulated.
import fc from "fast-check";
import { ABSENCES, MEASURE_IDS, type MeasureId, VERDICTS, type Verdict } from "../../../src/base/measures.js";
import { D_UNIT, P_UNIT } from "../../../src/base/units.js";
import { roundToTwelveDigits, toDisplayD, toDisplayP } from "../../../src/map/display-units.js";
import type {
  AxisMap,
  BoundaryPoint,
  ConditionBoundary,
  Grid,
  GridLines,
  PinnedPoint,
  StabilityMap,
} from "../../../src/map/format.js";
import type { TheoryBoundary } from "../../../src/map/theory-format.js";
import type { Axis } from "../../../src/sweep/sweep.js";
import { redigested } from "../../compare/remade.js";
import { type Draw, drawsOf, fieldOf, likelyValues, tableOf } from "./fields.js";

/** What a random map is drawn from; maps of the same lines answer the same question. */
export interface Seeds {
  readonly rows: number; // grid lines of D
  readonly columns: number; // and of P
  readonly lines: number;
  readonly values: number;
}

export const seeds: fc.Arbitrary<Seeds> = fc.record({
  rows: fc.integer({ min: 2, max: 8 }),
  columns: fc.integer({ min: 2, max: 8 }),
  lines: fc.nat(9999),
  values: fc.nat(9_999_999),
});

export function randomMap(base: StabilityMap, { rows, columns, lines, values }: Seeds): StabilityMap {
  const question = drawsOf("random question", rows, columns, lines);
  const line = (count: number, from: number) => {
    const even = question.chance(0.7);
    return Array.from({ length: count }, (_, k) =>
      roundToTwelveDigits(from + 4 * k + (even ? 0 : question.between(0, 3.9))),
    );
  };
  const roll = { d: line(rows, question.pick(0, 0.5)), p: line(columns, question.pick(2, 6)) };
  const ownLines = question.chance(0.3);
  const pitch = ownLines ? { d: line(columns, 0), p: line(rows, 3) } : roll;
  const grid = { roll, pitch };
  const limits = Object.fromEntries(
    Object.entries(base.limits).map(([id, limit]) => [id, question.chance(0.1) ? null : limit]),
  ) as StabilityMap["limits"];
  const { sweep, ...plan } = base.plan as { sweep: object };
  const si = ({ p, d }: GridLines) => ({ p: p.map((one) => one * P_UNIT), d: d.map((one) => one * D_UNIT) });
  const planned = { roll: si(roll), pitch: si(pitch) };
  const pinned = question.chance(0.5) ? null : { roll: pinnedAt(question, roll), pitch: pinnedAt(question, pitch) };
  const axis = (name: Axis) =>
    randomAxis(
      drawsOf("random axis", name, values),
      base,
      name,
      grid[name],
      pinned === null ? null : displayed(pinned[name]),
    );
  return redigested({
    ...base,
    limits,
    plan: { ...plan, sweep: { ...sweep, grid: planned, limits, pinned } },
    axes: { roll: axis("roll"), pitch: axis("pitch") },
  });
}

type Tune = { readonly p: number; readonly d: number };

/** SI gains inside the grid. */
function pinnedAt(draw: Draw, { d, p }: GridLines): Tune {
  const place = placeOf(draw, d, p);
  return { p: place.p * P_UNIT, d: place.d * D_UNIT };
}

const displayed = ({ p, d }: Tune): Tune => ({ p: toDisplayP(p), d: toDisplayD(d) });

function randomAxis(draw: Draw, base: StabilityMap, name: Axis, { d, p }: GridLines, pinned: Tune | null): AxisMap {
  const [rows, columns] = [d.length, p.length];
  const verdict = verdicts(draw, rows, columns);
  const safe = safePoints(draw, verdict);
  const perMeasure = <T>(of: (id: MeasureId) => T) =>
    Object.fromEntries(MEASURE_IDS.map((id) => [id, of(id)])) as Record<MeasureId, T>;
  const measures = perMeasure((id) => fieldOf(draw, rows, columns, likelyValues(id)));
  const decidedBy = () => draw.integer(-1, base.variants.length - 1);
  const margin = () => fieldOf(draw, rows, columns, [-3, 0, 1, 3, 5, 6, 9, 10, 12, 24, 40]);
  const crossings = () => d.map((one) => ({ d: one, p: draw.chance(0.4) ? [] : places(draw, p, draw.integer(1, 3)) }));
  const { start, ladder } = { start: base.axes[name].start, ladder: base.ladder };
  return {
    grid: { d, p },
    verdict,
    reasons: verdict.map((row) => row.map((one) => (one === "clean" ? 0 : 2 ** VERDICTS.indexOf(one)))),
    decidedBy: verdict.map((row) => row.map((one) => (one === "clean" ? -1 : decidedBy()))),
    measures,
    absent: perMeasure((id) =>
      measures[id].map((row) => row.map((value) => (value === null ? draw.integer(1, ABSENCES.length - 1) : 0))),
    ),
    margins: { gainUp: margin(), gainDown: margin(), phase: margin() },
    boundary: {
      sustained: d.map((one) => boundaryPoint(draw, one, p)),
      byVariant: base.axes[name].boundary.byVariant.map((one) => conditionBoundary(draw, one, d, p)),
      overshoot: crossings(),
      settling: crossings(),
      ...theoryOf(draw, base.axes[name].boundary.theory, d, p),
    },
    safe,
    safeShare: safe.flat().filter(Boolean).length / (rows * columns),
    // The climb leads to a starting tune: a map that has one has the other.
    start: start !== null && (ladder !== undefined || draw.chance(0.7)) ? { ...start, ...placeOf(draw, d, p) } : null,
    startReason: draw.chance(0.5) ? null : "No point is safe.",
    ...(pinned === null ? {} : { pinned: { ...pinnedOf(draw), ...pinned } }),
  };
}

/** One verdict, any verdicts, one point of its own, or sustained beyond a line as boundaries have it. */
function verdicts(draw: Draw, rows: number, columns: number): Grid<Verdict> {
  const [one, other] = [draw.pick(...VERDICTS), draw.pick(...VERDICTS)];
  const [row, column] = [draw.integer(0, rows - 1), draw.integer(0, columns - 1)];
  const at = draw.pick<(i: number, j: number) => Verdict>(
    () => one,
    () => draw.pick(...VERDICTS),
    () => draw.pick(one, other),
    (i, j) => (i === row && j === column ? one : other),
    (i) => (i === row ? one : other),
    (_, j) => (j === column ? one : other),
    (i, j) => (j > column + i - row ? "sustained" : draw.pick(one, "clean")),
  );
  return tableOf(rows, columns, at);
}

function safePoints(draw: Draw, verdict: Grid<Verdict>): Grid<boolean> {
  const [share, row] = [draw.pick(0, 0.5, 1), draw.integer(0, verdict.length - 1)];
  const torn = draw.chance(0.2);
  return verdict.map((line, i) => line.map((one) => (torn || one === "clean") && (i === row || draw.chance(share))));
}

/** Rising places between the ends of a line, on its values more often than not. */
const places = (draw: Draw, line: readonly number[], count: number): number[] =>
  Array.from({ length: count }, () =>
    draw.chance(0.6) ? draw.pick(...line) : draw.between(line[0] as number, line.at(-1) as number),
  ).sort((a, b) => a - b);

const placeOf = (draw: Draw, d: readonly number[], p: readonly number[]) => ({
  d: places(draw, d, 1)[0] as number,
  p: places(draw, p, 1)[0] as number,
});

function boundaryPoint(draw: Draw, d: number, p: readonly number[]): BoundaryPoint {
  const reason = draw.pick("never", "always", null, null);
  if (reason !== null) return { d, p: null, reason };
  const [from, to] = places(draw, p, 2) as [number, number];
  const beyond = draw.chance(0.1) ? 100 : 0;
  return { d, p: to + beyond, ...(draw.chance(0.3) ? { from } : {}) };
}

function conditionBoundary(
  draw: Draw,
  of: ConditionBoundary,
  ds: readonly number[],
  ps: readonly number[],
): ConditionBoundary {
  const [low, high] = [ps[0] as number, ps.at(-1) as number];
  const stable = (from: number, to: number) => ({
    from,
    to,
    fromOpen: from === low,
    toOpen: to === high,
    width: [0, 0.1] as const,
  });
  const intervals = () => {
    const ends = places(draw, ps, draw.pick(0, 2, 2, 4));
    return ends.flatMap((from, k) => (k % 2 === 0 ? [stable(from, ends[k + 1] as number)] : []));
  };
  return { ...of, perD: ds.map((d) => ({ d, stable: draw.chance(0.3) ? [stable(low, high)] : intervals() })) };
}

function theoryOf(
  draw: Draw,
  theory: TheoryBoundary | undefined,
  d: readonly number[],
  p: readonly number[],
): { readonly theory?: TheoryBoundary } {
  if (theory === undefined || draw.chance(0.3)) return {};
  const point = (one: number) => [one, places(draw, p, 1)[0] as number, 30] as const;
  const range = () =>
    draw.pick([], [[null, null]], [places(draw, p, 2)]) as unknown as [number | null, number | null][];
  const loops = theory.loops.map((loop) => ({
    ...loop,
    curve: draw.pick([], [d.map(point)], [[point(d[0] as number)], d.slice(1).map(point)]),
    perD: d.map(range),
  }));
  return { theory: { ...theory, loops } };
}

/** What a pinned tune says of itself, but for its gains. */
function pinnedOf(draw: Draw): Omit<PinnedPoint, "p" | "d"> {
  const measures = Object.fromEntries(MEASURE_IDS.map((id) => [id, draw.chance(0.3) ? null : draw.between(0, 100)]));
  return {
    own: draw.chance(0.5) ? null : { p: draw.between(1, 500), d: draw.between(1, 500) },
    verdict: draw.pick(...VERDICTS),
    decidedBy: null,
    measures: measures as PinnedPoint["measures"],
    margins: { gainUp: draw.pick(null, 3, 6, 12), gainDown: draw.pick(null, 3, 6, 12), phase: draw.between(0, 90) },
    safe: draw.chance(0.5),
    boundary: { d: 0, p: null, reason: "never" },
  };
}
