// What the page's script reads: the map's points packed small, and what it takes to simulate any of them again. Text in it
// is data; the script shows it as text.
import { at } from "../base/at.js";
import { MEASURE_IDS, type MeasureId, VERDICT_LETTERS } from "../base/measures.js";
import { withoutGaps } from "../charts/theory-marks.js";
import { viewOf } from "../charts/view.js";
import type { AxisMap, Grid, GridLines, MapVariant, StabilityMap } from "../map/format.js";
import { type OwnScale, ownScale } from "../map/own-scale.js";
import type { TheoryLoop } from "../map/theory-format.js";
import { type WantedMargins, wantedMargins } from "../map/wanted-margins.js";
import { AXES, type Axis, absentAtStart } from "../words/axes.js";
import { type PageDraws, pageDraws } from "./draws-data.js";
import { type SimulationData, simulationData } from "./simulation-data.js";

/** One axis, its tables reduced to its grid; rows are D, columns P. */
export interface PageAxis {
  /** Display units; the grid lines of the picture, or every second, third, ... of them where there are very many. */
  readonly grid: GridLines;
  /** A letter per point, safe ones in capitals: s sustained, h hot, r ringing, l loose, c clean, C safe. */
  readonly verdict: readonly string[];
  /** Index into variants; -1: nobody. */
  readonly decidedBy: Grid<number>;
  readonly measures: Readonly<Record<MeasureId, Grid<number | null>>>;
  /** A digit (base 36) per point: index into ABSENCES; only of measures that are absent somewhere. */
  readonly absent: Readonly<Partial<Record<MeasureId, readonly string[]>>>;
  readonly gainUp: Grid<number | null>;
  readonly phase: Grid<number | null>;
  readonly sustained: AxisMap["boundary"]["sustained"];
  /** Per throttle level (%) and condition the lines (D, P) where theory has the oscillation set in. */
  readonly theory: readonly PageLoop[];
  readonly start: PageStart | null;
  readonly pinned: { readonly p: number; readonly d: number } | null;
  /** In how many draws each point is safe; only where the map was made with draws. */
  readonly safeDraws?: Grid<number>;
}

export interface PageLoop {
  readonly throttle: number;
  readonly condition: string;
  readonly lines: readonly (readonly (readonly [d: number, p: number])[])[];
  /** Per D of the data's grid the stable P ranges; null: the edge of the swept range. */
  readonly stable: TheoryLoop["perD"];
  /** Whether a trial at this level moved the axis: where none did, theory alone decides. */
  readonly tried: boolean;
}

/** The starting tune with measures of its own, from trials at exactly its gains. */
export interface PageStart {
  readonly p: number;
  readonly d: number;
  readonly measures: Readonly<Record<MeasureId, number | null>>;
  readonly absent: Readonly<Record<MeasureId, number>>;
  readonly gainUp: number | null;
  readonly phase: number;
}

export interface PageData {
  readonly units: StabilityMap["units"];
  /** The controller's own units per unit above; null where the model does not say. */
  readonly own: OwnScale | null;
  readonly limits: StabilityMap["limits"];
  readonly wanted: WantedMargins;
  readonly variants: readonly MapVariant[];
  readonly axes: Readonly<Record<Axis, PageAxis>>;
  /** Only where the map was made with draws. */
  readonly draws?: PageDraws;
  /** Null where the map does not hold its plan. */
  readonly simulation: SimulationData | null;
}

/** Indices of grid lines. */
interface ChosenLines {
  readonly d: readonly number[];
  readonly p: readonly number[];
}

const MOST_LINES = 48; // grid lines per side that the script is given

export function pageData(map: StabilityMap): PageData {
  const view = viewOf(map);
  const chosen = (name: Axis): ChosenLines => {
    const { d, p } = view.axes[name].grid;
    return { d: everyNth(d), p: everyNth(p) };
  };
  const axis = (name: Axis): PageAxis => ({
    ...pageAxis(view.axes[name], chosen(name)),
    theory: pageTheory(map.axes[name], view.axes[name].grid, chosen(name).d),
    start: pageStart(map, name),
  });
  const draws = pageDraws(map, view);
  return {
    ...(draws === null ? {} : { draws }),
    units: view.units,
    own: ownScale(view),
    limits: view.limits,
    wanted: wantedMargins(view),
    variants: view.variants,
    axes: Object.fromEntries(AXES.map((name) => [name, axis(name)])) as unknown as PageData["axes"],
    simulation: simulationData(map, chosen),
  };
}

/** Indices of every n-th line and the last one, so that they span what the picture spans. */
function everyNth(line: readonly number[]): number[] {
  const last = line.length - 1;
  const step = Math.ceil(last / (MOST_LINES - 1));
  return [...line.keys()].filter((k) => k % step === 0 || k === last);
}

function pageTheory({ boundary }: AxisMap, { d, p }: GridLines, selected: readonly number[]): PageLoop[] {
  const [right, top] = [d.at(-1) ?? 0, p.at(-1) ?? 0];
  const fourDigits = (value: number) => Number(value.toPrecision(4));
  return (boundary.theory?.loops ?? []).map(({ throttle, condition, curve, perD }) => ({
    throttle,
    condition,
    stable: selected.map((i) => perD[i] ?? []),
    tried: boundary.byVariant.some(
      (one) => one.throttle === throttle && one.condition === condition && one.atRest !== true,
    ),
    lines: curve.flatMap((line) =>
      withoutGaps(line.map(([x, y]) => (x > right || y > top ? undefined : ([fourDigits(x), fourDigits(y)] as const)))),
    ),
  }));
}

function pageStart(view: StabilityMap, name: Axis): PageStart | null {
  const { start } = view.axes[name];
  if (start === null) return null;
  return {
    ...placeOf(start),
    measures: perMeasure((id) => threeDigits(start.measures[id] ?? null)),
    absent: perMeasure((id) => absentAtStart(view, name, id, start)),
    gainUp: threeDigits(start.margins.gainUp),
    phase: Number(start.margins.phase.toPrecision(3)),
  };
}

function pageAxis(axis: AxisMap, { d: ds, p: ps }: ChosenLines): Omit<PageAxis, "start" | "theory"> {
  const table = <T, U>(grid: Grid<T>, of: (value: T) => U): U[][] =>
    ds.map((i) => ps.map((j) => of(at(at(grid, i), j))));
  const short = (grid: Grid<number | null>) => table(grid, threeDigits);
  const chosenOf = (line: readonly number[], chosen: readonly number[]) => chosen.map((k) => at(line, k));
  const lines = { d: chosenOf(axis.grid.d, ds), p: chosenOf(axis.grid.p, ps) };
  const selected = new Set(lines.d);
  const { sustained } = axis.boundary;
  return {
    grid: lines,
    verdict: ds.map((i) => ps.map((j) => letterOf(axis, i, j)).join("")),
    decidedBy: table(axis.decidedBy, (index) => index),
    measures: perMeasure((id) => short(axis.measures[id])),
    absent: Object.fromEntries(
      MEASURE_IDS.map(
        (id) => [id, table(axis.absent[id], (code) => code.toString(36)).map((row) => row.join(""))] as const,
      ).filter(([, rows]) => rows.some((row) => /[^0]/.test(row))),
    ),
    gainUp: short(axis.margins.gainUp),
    phase: short(axis.margins.phase),
    sustained: sustained.filter(({ d }) => selected.has(d)),
    pinned: axis.pinned === undefined ? null : placeOf(axis.pinned),
    ...(axis.confidence === undefined ? {} : { safeDraws: table(axis.confidence.safeDraws, (count) => count) }),
  };
}

const perMeasure = <T>(of: (id: MeasureId) => T) =>
  Object.fromEntries(MEASURE_IDS.map((id) => [id, of(id)])) as Record<MeasureId, T>;

const threeDigits = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(3)));

const placeOf = ({ p, d }: { readonly p: number; readonly d: number }) => ({ p, d });

function letterOf({ verdict, safe }: AxisMap, i: number, j: number): string {
  const letter = VERDICT_LETTERS[verdict[i]?.[j] ?? "clean"];
  return safe[i]?.[j] === true ? letter.toUpperCase() : letter;
}
