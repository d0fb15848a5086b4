// A baseline: the part of a stability map that a comparison needs, short enough to be reviewed and put under version
// control. Numbers that drift is computed from have every digit; those only drawn have four.
import { MEASURE_IDS, MEASURES, type MeasureId, VERDICT_LETTERS, VERDICTS, type Verdict } from "../base/measures.js";
import type { AxisMap, ConditionBoundary, Grid, GridLines, StabilityMap } from "../map/format.js";
import type { LimitingCase } from "../map/limiting-case.js";
import { unknownMeasures } from "../map/older-measures.js";
import { type BaselineDraws, drawsOf, uncertaintyIn } from "./baseline-draws.js";
import { type MapPlan, planOf } from "./question.js";

export const BASELINE_FORMAT = "gainscape.baseline/2";

/** A letter per point, safe ones in capitals: s sustained, h hot, r ringing, l loose, c clean, C safe. */
type VerdictRows = readonly string[];

type PackedInterval = readonly [from: number | null, to: number | null]; // null: the grid's edge

export interface AxisBaseline {
  readonly grid: GridLines;
  /** As the map is drawn: a text per P from the highest down, a letter per D. */
  readonly verdicts: VerdictRows;
  readonly decidedBy: Grid<number>;
  /** Of judged measures alone. */
  readonly measures: Readonly<Record<string, Grid<number | null>>>;
  /** A text per D, a digit (base 36) per P: index into ABSENCES; only of measures that are absent somewhere. */
  readonly absent: Readonly<Record<string, readonly string[]>>;
  readonly margins: AxisMap["margins"];
  readonly sustained: AxisMap["boundary"]["sustained"];
  readonly overshoot: AxisMap["boundary"]["overshoot"];
  readonly settling: AxisMap["boundary"]["settling"];
  /** Per variant of the axis, per D, the stable P intervals. */
  readonly byVariant: Grid<readonly PackedInterval[]>;
  readonly start: AxisMap["start"];
  readonly startReason: string | null;
  readonly pinned?: AxisMap["pinned"];
}

export type Baseline = Pick<
  StabilityMap,
  | "product"
  | "airframe"
  | "sweep"
  | "provenance"
  | "units"
  | "limits"
  | "hover"
  | "variants"
  | "model"
  | "unsealed"
  | "strips"
> & {
  readonly format: typeof BASELINE_FORMAT;
  readonly axes: Readonly<Record<"roll" | "pitch", AxisBaseline>>;
  readonly plan: unknown;
  /** Absent where the map says not how sure it is, and in baselines written before maps did. */
  readonly uncertainty?: BaselineDraws;
};

export function baselineOf(map: StabilityMap): Baseline {
  const { product, airframe, sweep, provenance, units, limits, hover, variants, model } = map;
  const { digest, sweep: asked, variants: planned } = planOf(map);
  const unknown = new Set<string>(unknownMeasures(map));
  return {
    format: BASELINE_FORMAT,
    product,
    airframe,
    sweep,
    provenance,
    units,
    limits: Object.fromEntries(Object.entries(limits).filter(([id]) => !unknown.has(id))) as Baseline["limits"],
    axes: { roll: packed(map, "roll"), pitch: packed(map, "pitch") },
    hover,
    variants,
    model,
    ...(map.unsealed === undefined ? {} : { unsealed: map.unsealed }),
    ...(map.strips === undefined ? {} : { strips: map.strips }),
    ...(map.uncertainty === undefined ? {} : { uncertainty: drawsOf(map.uncertainty) }),
    plan: { digest, sweep: asked, variants: planned.map(question) },
  };
}

/** Of a variant what a candidate must share: its tail where it is not the script's. */
const question = ({ hovering, duration, tail }: MapPlan["variants"][number]) => ({
  hovering,
  ...(duration === undefined ? {} : { duration }),
  ...(tail === undefined ? {} : { tail }),
});

const judged = (map: Pick<StabilityMap, "limits">): MeasureId[] =>
  MEASURES.filter(({ id, argues }) => argues !== null && map.limits[id] !== null).map(({ id }) => id);

function packed(map: StabilityMap, name: "roll" | "pitch"): AxisBaseline {
  const axis = map.axes[name];
  const rounded = (table: Grid<number | null>) => table.map((row) => row.map(fewDigits));
  const chosen = <T>(of: (id: MeasureId) => T) => Object.fromEntries(judged(map).map((id) => [id, of(id)]));
  const { sustained, overshoot, settling, byVariant } = axis.boundary;
  return {
    grid: axis.grid,
    verdicts: verdictRows(axis),
    start: axis.start,
    startReason: axis.startReason,
    ...(axis.pinned === undefined ? {} : { pinned: axis.pinned }),
    sustained,
    byVariant: byVariant.map(({ perD }) => perD.map(({ stable }) => stable.map(packedInterval))),
    overshoot: overshoot.map(({ d, p }) => ({ d, p: p.map((value) => Number(value.toPrecision(4))) })),
    settling: settling.map(({ d, p }) => ({ d, p: p.map((value) => Number(value.toPrecision(4))) })),
    margins: {
      gainUp: rounded(axis.margins.gainUp),
      gainDown: rounded(axis.margins.gainDown),
      phase: rounded(axis.margins.phase),
    },
    measures: chosen((id) => rounded(axis.measures[id])),
    absent: absentRows(axis, judged(map)),
    decidedBy: axis.decidedBy,
  };
}

const fewDigits = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(4)));

function absentRows({ absent }: AxisMap, ids: readonly MeasureId[]): AxisBaseline["absent"] {
  const somewhere = ids.filter((id) => absent[id].flat().some((code) => code !== 0));
  return Object.fromEntries(
    somewhere.map((id) => [id, absent[id].map((row) => row.map((code) => code.toString(36)).join(""))]),
  );
}

const packedInterval = ({ from, to, fromOpen, toOpen }: ConditionBoundary["perD"][number]["stable"][number]) =>
  [fromOpen ? null : from, toOpen ? null : to] as const;

function verdictRows({ verdict, safe }: AxisMap): VerdictRows {
  const count = verdict[0]?.length ?? 0;
  const letter = (row: number, column: number) => {
    const plain = VERDICT_LETTERS[verdict[row]?.[column] as Verdict];
    return safe[row]?.[column] === true ? plain.toUpperCase() : plain;
  };
  return Array.from({ length: count }, (_, k) => verdict.map((__, row) => letter(row, count - 1 - k)).join(""));
}

/** The map a baseline was made from, as far as a comparison reads it; what was left out is null. */
export function mapOfBaseline(baseline: Baseline): StabilityMap {
  const { format, axes, uncertainty, ...rest } = baseline;
  const expanded = (name: "roll" | "pitch") => unpacked(baseline, name);
  return {
    ...rest,
    format: "gainscape.map/2",
    axes: { roll: expanded("roll"), pitch: expanded("pitch") },
    assumptions: [],
    ...(uncertainty === undefined ? {} : { uncertainty: uncertaintyIn(uncertainty) }),
  };
}

function unpacked(baseline: Baseline, name: "roll" | "pitch"): AxisMap {
  const axis = baseline.axes[name];
  const { p, d } = axis.grid;
  const grid = <T>(of: (row: number, column: number) => T): Grid<T> => d.map((_, i) => p.map((__, j) => of(i, j)));
  const letter = (i: number, j: number) => axis.verdicts[p.length - 1 - j]?.[i] ?? "";
  const verdictAt = (i: number, j: number) =>
    VERDICTS.find((verdict) => VERDICT_LETTERS[verdict] === letter(i, j).toLowerCase()) ?? "clean";
  const safe = grid((i, j) => letter(i, j) === VERDICT_LETTERS.clean.toUpperCase());
  const perMeasure = <T>(of: (id: MeasureId) => T) =>
    Object.fromEntries(knownTo(baseline).map((id) => [id, of(id)])) as Record<MeasureId, T>;
  const { sustained, overshoot, settling } = axis;
  return {
    grid: axis.grid,
    verdict: grid(verdictAt),
    reasons: grid((i, j) => (verdictAt(i, j) === "clean" ? 0 : 1 << VERDICTS.indexOf(verdictAt(i, j)))),
    decidedBy: axis.decidedBy,
    measures: perMeasure((id) => axis.measures[id] ?? grid(() => null)),
    absent: perMeasure((id) => grid((i, j) => absentAt(axis, id, i, j))),
    margins: axis.margins,
    boundary: { sustained, overshoot, settling, byVariant: conditionBoundaries(baseline, name) },
    safe,
    safeShare: safe.flat().filter(Boolean).length / (p.length * d.length),
    start: axis.start,
    startReason: axis.startReason,
    ...(axis.pinned === undefined ? {} : { pinned: axis.pinned }),
  };
}

/** Measures that the baseline's version knew: those it names a limit of, be it none. */
const knownTo = ({ limits }: Baseline): MeasureId[] => MEASURE_IDS.filter((id) => Object.hasOwn(limits, id));

/** A measure that is not judged, which the baseline lacks, counts as not shown. */
function absentAt({ absent, measures }: AxisBaseline, id: MeasureId, i: number, j: number): number {
  if (measures[id] === undefined) return 1;
  return Number.parseInt(absent[id]?.[i]?.[j] ?? "0", 36);
}

function conditionBoundaries({ variants, axes }: Baseline, name: "roll" | "pitch"): ConditionBoundary[] {
  const { grid } = axes[name];
  const [bottom, top] = [grid.p[0] ?? 0, grid.p.at(-1) ?? 0];
  const unpackedInterval = ([from, to]: PackedInterval) => ({
    from: from ?? bottom,
    to: to ?? top,
    fromOpen: from === null,
    toOpen: to === null,
    width: [0, 0] as const,
  });
  return variants
    .filter(({ axis }) => axis === name)
    .map(({ script, throttle, rate, condition, kind }, at): ConditionBoundary & LimitingCase => {
      const rows = axes[name].byVariant[at] ?? [];
      const perD = grid.d.map((d, row) => ({ d, stable: (rows[row] ?? []).map(unpackedInterval) }));
      return { script, throttle, rate, condition, kind, perD };
    });
}
