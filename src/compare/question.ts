// The question a map answers: what must be the same on both sides before two maps can be compared.
import { canonicalJson } from "../base/canonical.js";
import { type AllGates, DEFAULT_GATES, type GateJudge, type Gates } from "../base/gates.js";
import { MEASURE_IDS, type MeasureId } from "../base/measures.js";
import { shortened } from "../base/problem.js";
import type { StabilityMap } from "../map/format.js";
import { unknownMeasures } from "../map/older-measures.js";
import type { Axis, LineCounts, RequestedSweep, Sweep } from "../sweep/sweep.js";
import { type Change, changesBetween } from "./changes.js";
import type { KeyChange } from "./format.js";
import { inFileTerms } from "./model-changes.js";

/** The part of a sweep that decides what is simulated and how it is judged. */
export type Question = Pick<
  Sweep,
  "seed" | "grid" | "scripts" | "conditions" | "limits" | "margins" | "boundaryTolerance" | "pinned"
>;

/** The plan in map.json, as far as a comparison reads it. */
export interface MapPlan {
  readonly digest: string;
  readonly sweep: Question & Pick<Sweep, "autoGrid" | "skippedGates" | "gateJudge"> & { readonly gates?: Gates };
  readonly variants: readonly PlannedVariant[];
}

interface PlannedVariant {
  readonly hovering: boolean;
  /** s; only where it was made longer than the script has it. */
  readonly duration?: number;
  readonly tail?: { readonly from: number; readonly to: number };
}

export const planOf = (map: StabilityMap): MapPlan => map.plan as MapPlan;

/** What theory asks of a map's craft: its throttles and packs; null in a map whose plan lacks what its packs are. */
export function packsAsked(map: StabilityMap): Pick<Sweep, "scripts" | "conditions"> | null {
  const { scripts, conditions } = planOf(map).sweep;
  const complete = conditions.every(({ charge, altitude }) => charge !== undefined && altitude !== undefined);
  return complete ? { scripts, conditions } : null;
}

/** Whether the script's own tail was made longer in the same way, variant by variant. */
export function tailsAgree(base: StabilityMap, candidate: StabilityMap): boolean {
  const ends = (map: StabilityMap) => canonicalJson(planOf(map).variants.map(({ tail }) => tail?.to ?? null));
  return ends(base) === ends(candidate);
}

/**
 * The question apart from its seed, its lines and what only bounds its answers: maps that share it may be followed over years,
 * made by other sweeps and, where they leave their lines to the plan, on other lines.
 */
export function followedQuestion(map: StabilityMap): object {
  const { seed: _, boundaryTolerance: __, pinned: ___, limits, ...rest } = byName(planOf(map).sweep);
  const wanted = Object.entries(limits).filter(([, limit]) => limit !== null);
  return { ...rest, limits: Object.fromEntries(wanted), units: map.units };
}

/** A map that was made before a gate was has its default. */
export const gatesOf = (map: StabilityMap): AllGates => ({ ...DEFAULT_GATES, ...planOf(map).sweep.gates });

export const gateJudgeOf = (map: StabilityMap): GateJudge => planOf(map).sweep.gateJudge ?? "middle";

/** Differences that forbid comparing two maps: of their questions, or else of the tables that should answer the same. */
export function mapDifferences(base: StabilityMap, candidate: StabilityMap): KeyChange[] {
  const differ = differences(planOf(base).sweep, planOf(candidate).sweep);
  return differ.length > 0 ? differ : answersDiffer(base, candidate);
}

function answersDiffer(base: StabilityMap, candidate: StabilityMap): KeyChange[] {
  const unknown = [...unknownMeasures(base), ...unknownMeasures(candidate)];
  const shared = MEASURE_IDS.filter((id) => !unknown.includes(id));
  return changesBetween(answersOf(base, shared), answersOf(candidate, shared)).map(keyChangeOf);
}

/** The question as a map's own tables state it. The hovering duty is each craft's own, so it is left out. */
function answersOf(map: StabilityMap, shared: readonly MeasureId[]) {
  const { limits, variants, axes, units } = map;
  const planned = planOf(map).variants;
  const flat = (axis: StabilityMap["axes"]["roll"]) => ({
    grid: { p: axis.grid.p, d: axis.grid.d },
    verdict: axis.verdict.map((row) => row.length),
    boundary: axis.boundary.sustained.map(({ d }) => d),
    variants: axis.boundary.byVariant.map(({ perD }) => perD.length),
  });
  return {
    units: { p: units.p, d: units.d, i: units.i },
    limits: Object.fromEntries(shared.map((id) => [id, limits[id]])),
    variants: variants.map(({ script, kind, axis, throttle, rate, condition }, at) => {
      const level = planned[at]?.hovering === true ? "hover" : throttle;
      return { script, kind, axis, throttle: level, rate, condition };
    }),
    axes: { roll: flat(axes.roll), pitch: flat(axes.pitch) },
  };
}

/** Values as the map has them, in display units. */
const keyChangeOf = ({ key, before, after }: Change): KeyChange => ({
  key,
  before: textOf(before),
  after: textOf(after),
});

const textOf = (value: unknown): string | null =>
  value === undefined ? null : shortened(typeof value === "string" ? value : canonicalJson(value));

/** Differences that forbid a comparison, key by key; none where the questions are the same. */
function differences(base: Question, candidate: Question): KeyChange[] {
  // A limit that one side's version did not know is neither asked nor answered there.
  const common = (one: Question, other: Question): Question => ({ ...one, limits: pick(one.limits, other.limits) });
  return [...gridDifferences(base, candidate), ...restDifferences(common(base, candidate), common(candidate, base))];
}

/**
 * The same for a sweep file that will be simulated on the base's lines. Where the file leaves an axis to the plan, the base
 * must have been asked for as many lines, and its own count.
 */
export function requestDifferences(base: MapPlan["sweep"], requested: RequestedSweep): KeyChange[] {
  const axes = ["roll", "pitch"] as const;
  const asked = axes.flatMap((axis): KeyChange[] => {
    const wanted = requested.grid[axis];
    if (!("auto" in wanted)) return [];
    const counts = base.autoGrid?.[axis];
    const after = countWords(wanted.auto);
    if (counts === undefined) return [{ key: `grid.${axis}`, before: "lines of a file", after }];
    const before = countWords(counts);
    return before === after ? [] : [{ key: `grid.${axis}`, before, after }];
  });
  const lines = (axis: Axis) => {
    const wanted = requested.grid[axis];
    return "auto" in wanted ? base.grid[axis] : wanted;
  };
  const question = { ...requested, grid: { roll: lines("roll"), pitch: lines("pitch") } };
  // As a file would give it back: no key without a value.
  return [...asked, ...differences(base, JSON.parse(canonicalJson(question)) as Question)];
}

const countWords = ({ p, d }: LineCounts): string => `auto ${p} x ${d}`;

const pick = (limits: Question["limits"], shared: object): Question["limits"] =>
  Object.fromEntries(Object.entries(limits).filter(([id]) => Object.hasOwn(shared, id))) as Question["limits"];

function gridDifferences(base: Question, candidate: Question): KeyChange[] {
  return (["p", "d"] as const).flatMap((gain) => {
    const differ = (["roll", "pitch"] as const).flatMap((axis) => {
      const [before, after] = [base.grid[axis][gain], candidate.grid[axis][gain]];
      if (changesBetween(before, after).length === 0) return [];
      return [{ axis, before: lineWords(gain, before), after: lineWords(gain, after) }];
    });
    const [roll, pitch] = differ;
    const alike = pitch !== undefined && roll?.before === pitch.before && roll.after === pitch.after;
    if (alike) return [{ key: `grid.${gain}`, before: pitch.before, after: pitch.after }]; // a file's one grid for both
    return differ.map(({ axis, ...lines }) => ({ key: `grid.${axis}.${gain}`, ...lines }));
  });
}

function lineWords(gain: "p" | "d", line: readonly number[]): string {
  const say = (value: number | undefined) =>
    inFileTerms({ path: [], key: `grid.${gain}[]`, before: value, after: null }).before;
  return `${say(line[0])} to ${say(line.at(-1))} in ${line.length} points`;
}

function restDifferences(base: Question, candidate: Question): KeyChange[] {
  const changes = changesBetween(byName(base), byName(candidate));
  const others = changes.some(({ path }) => path.length === 2 && (path[0] === "scripts" || path[0] === "conditions"));
  return changes.filter(({ key }) => key !== "order" || !others).map(inFileTerms); // an added name is not reported twice
}

/** Scripts and conditions by their names, so that one more script does not make all after it differ. */
function byName({ seed, scripts, conditions, limits, margins, boundaryTolerance, pinned }: Question) {
  // The levels of a use and the script's own line are both called throttle.
  const uses = scripts.map(
    ({ script, ...use }) => [script.name, { ...script, throttleOverTime: script.throttle, ...use }] as const,
  );
  const states = conditions.map(({ name, ...state }) => [name, state] as const);
  return {
    seed,
    scripts: Object.fromEntries(uses),
    conditions: Object.fromEntries(states),
    // Variants are identified by their order.
    order: [...uses, ...states].map(([name]) => name).join(", "),
    limits,
    margins,
    boundaryTolerance,
    pinned: pinned ?? {},
  };
}
