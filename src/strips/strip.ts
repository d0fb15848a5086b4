// One strip judged: trials and margins of every gain, what each fails by, the range that passes and the gain chosen from it.
import { at, last } from "../base/at.js";
import { exp, ln } from "../base/elementary.js";
import { STRIP_MEASURES, type StripKind, type StripMeasure } from "../base/strip-measures.js";
import { THEORY } from "../base/theory-name.js";
import { DEGREES, limitingCaseOf, roundToTwelveDigits } from "../map/display-units.js";
import type { LimitingCase } from "../map/limiting-case.js";
import type { PointMargins } from "../map/margins.js";
import type { Strip, StripLimit } from "../map/strip-format.js";
import { type Ask, sustains, type TrialRequest } from "../map/trials.js";
import { FAILING, type WorstPoint, worstPoint } from "../map/worst.js";
import type { Plan, TrialVariant } from "../plan/plan.js";
import type { RequestedStrip } from "../sweep/sweep.js";

export interface StripInput {
  readonly plan: Plan;
  readonly kind: StripKind;
  readonly asked: RequestedStrip;
  readonly variants: readonly TrialVariant[];
  /** SI; rising, the model's own among them. */
  readonly gains: readonly number[];
  readonly declared: number;
  /** SI of one display unit of the gain, and of one of the controller's own. */
  readonly unit: number;
  readonly oneUnit: number | undefined;
  readonly request: (gain: number) => Pick<TrialRequest, "p" | "d" | "i">;
  readonly margins: (gain: number) => PointMargins;
  readonly ask: Ask;
}

/** A constraint at one gain: room as a share of its limit, negative where it fails, and what decides. */
interface Constraint {
  readonly limit: string;
  readonly room: number;
  readonly decidedBy: LimitingCase | null;
}

interface Point {
  readonly gain: number;
  readonly worst: WorstPoint;
  readonly margins: PointMargins;
  readonly values: Readonly<Record<string, number | null>>;
  readonly tightest: Constraint;
}

export async function judgedStrip(input: StripInput): Promise<Strip> {
  const points = await judgedPoints(input);
  const passing = passingRun(points, input.declared);
  const display = (gain: number) => roundToTwelveDigits(gain / input.unit);
  const each = (of: (point: Point) => number | null) => points.map((point) => finite(of(point)));
  return {
    gains: points.map(({ gain }) => display(gain)),
    measures: Object.fromEntries(
      STRIP_MEASURES[input.kind].map(({ id }) => [id, each(({ values }) => values[id] ?? null)]),
    ),
    limits: input.asked.limits,
    margins: {
      gainUp: each(({ margins }) => margins.gainUp),
      gainDown: each(({ margins }) => margins.gainDown),
      phase: each(({ margins }) => DEGREES * margins.phase),
    },
    fails: points.map(({ tightest }) => failureOf(tightest)),
    range: passing === null ? null : rangeOf(points, passing, display),
    declared: display(input.declared),
    choice: passing === null ? null : display(chosen(points, passing, input.declared)),
    titles: Object.fromEntries(input.asked.scripts.map(({ script: { name, title } }) => [name, title])),
    oneUnit: input.oneUnit === undefined ? null : display(input.oneUnit),
  };
}

async function judgedPoints(input: StripInput): Promise<Point[]> {
  const { variants, gains, request, margins, ask } = input;
  const table = await ask(gains.flatMap((gain) => variants.map(({ index }) => ({ variant: index, ...request(gain) }))));
  const worst = gains.map((_, at) =>
    worstPoint(variants.map(({ index }, place) => ({ variant: index, table, row: at * variants.length + place }))),
  );
  return gains.map((gain, place): Point => {
    const own = at(worst, place);
    const sustained = variants.find((_, k) => sustains(table, place * variants.length + k)) ?? null;
    const found = { gain, worst: own, margins: margins(gain) };
    const readings = STRIP_MEASURES[input.kind].map((measure) => reading(measure, own, at(worst, 0)));
    const constraints = [
      ...dynamics(input, found.margins, sustained),
      ...STRIP_MEASURES[input.kind].map((measure, k) => limited(input, measure, own, at(readings, k))),
    ];
    const tightest = constraints.reduce((least, one) => (one.room < least.room ? one : least));
    const values = Object.fromEntries(STRIP_MEASURES[input.kind].map(({ id }, k) => [id, at(readings, k)]));
    return { ...found, values, tightest };
  });
}

/** A measure at a point, or over the one at the lowest gain; null: absent. */
function reading({ reads, overLowest }: StripMeasure, own: WorstPoint, lowest: WorstPoint): number | null {
  const value = own[reads].value;
  if (overLowest === null || value === null) return value;
  const base = lowest[reads].value;
  return base === null || base <= 0 ? null : (overLowest * value) / base;
}

function limited(
  { plan, asked, variants }: StripInput,
  { id, reads }: StripMeasure,
  own: WorstPoint,
  value: number | null,
): Constraint {
  const { absent, variant } = own[reads];
  const limit = asked.limits[id] ?? null;
  const decider = variants[variant];
  const decidedBy = decider === undefined ? null : limitingCaseOf(plan, decider);
  if (limit === null) return { limit: id, room: 1, decidedBy };
  const room = value === null ? (FAILING.includes(absent) ? -1 : 1) : (limit - value) / limit;
  return { limit: id, room: Math.max(-1, Math.min(1, room)), decidedBy };
}

/** What trials and theory say of stability and margins. */
function dynamics(
  { plan }: StripInput,
  { gainUp, gainDown, phase, gainBy, phaseBy }: PointMargins,
  sustained: TrialVariant | null,
): Constraint[] {
  const { gain: wantedGain, phase: wantedPhase } = plan.sweep.margins;
  const unstable = !(phase > 0);
  const share = (value: number, wanted: number) =>
    unstable ? -1 : Math.max(-1, Math.min(1, (value - wanted) / (wanted || 1)));
  const byTheory = (index: number): LimitingCase | null => {
    const variant = plan.variants[index];
    return variant === undefined ? null : { ...limitingCaseOf(plan, variant), script: THEORY, rate: 0 };
  };
  return [
    {
      limit: "sustained oscillation",
      room: sustained === null ? 1 : -1,
      decidedBy: sustained === null ? null : limitingCaseOf(plan, sustained),
    },
    {
      limit: "gain margin",
      room: share(Math.min(gainUp, gainDown ?? Number.POSITIVE_INFINITY), wantedGain),
      decidedBy: byTheory(gainBy),
    },
    { limit: "phase margin", room: share(phase, wantedPhase), decidedBy: byTheory(phaseBy) },
  ];
}

const failureOf = ({ limit, room, decidedBy }: Constraint): StripLimit | null =>
  room < 0 ? { limit, decidedBy } : null;

/** First and last place of neighbours that all pass. */
interface Run {
  readonly first: number;
  readonly last: number;
}

/** The run that holds the model's own gain, else the widest; null where nothing passes. */
function passingRun(points: readonly Point[], declared: number): Run | null {
  const runs: Run[] = [];
  points.forEach(({ tightest }, place) => {
    if (tightest.room < 0) return;
    const before = runs.at(-1);
    if (before?.last === place - 1) runs[runs.length - 1] = { ...before, last: place };
    else runs.push({ first: place, last: place });
  });
  const holds = ({ first, last: end }: Run) => at(points, first).gain <= declared && declared <= at(points, end).gain;
  const width = ({ first, last: end }: Run) => factorBetween(at(points, first).gain, at(points, end).gain);
  const widest = runs.reduce<Run | null>((best, run) => (best === null || width(run) > width(best) ? run : best), null);
  return runs.find(holds) ?? widest;
}

/** Logarithm of the factor between two gains; what begins at nothing is endlessly wide. */
const factorBetween = (low: number, high: number): number => (low > 0 ? ln(high / low) : Number.POSITIVE_INFINITY);

/** Where the room of the failing neighbour's constraint would be used up, by straight lines in the gain's logarithm. */
function rangeOf(
  points: readonly Point[],
  { first, last: end }: Run,
  display: (gain: number) => number,
): NonNullable<Strip["range"]> {
  const [below, above] = [points[first - 1], points[end + 1]];
  return {
    from: display(edge(at(points, first), below)),
    to: display(edge(at(points, end), above)),
    below: below === undefined ? null : failureOf(below.tightest),
    above: above === undefined ? null : failureOf(above.tightest),
  };
}

function edge(inside: Point, outside: Point | undefined): number {
  if (outside === undefined) return inside.gain;
  const share = inside.tightest.room / (inside.tightest.room - outside.tightest.room);
  if (inside.gain <= 0 || outside.gain <= 0) return inside.gain + share * (outside.gain - inside.gain);
  return inside.gain * exp(share * ln(outside.gain / inside.gain));
}

/** The model's own where it passes, else the simulated gain with the largest factor to either end of the range. */
function chosen(points: readonly Point[], { first, last: end }: Run, declared: number): number {
  const run = points.slice(first, end + 1).map(({ gain }) => gain);
  if (run.includes(declared)) return declared;
  const [low, high] = [edge(at(points, first), points[first - 1]), edge(at(points, end), points[end + 1])];
  const room = (gain: number) => Math.min(factorBetween(low, gain), factorBetween(gain, high));
  return run.reduce((best, gain) => (room(gain) > room(best) ? gain : best), last(run));
}

const finite = (value: number | null): number | null =>
  value === null || !Number.isFinite(value) ? null : roundToTwelveDigits(value);
