// How the simulated boundary of a small nudge agrees with theory's, end by end of every stable P range.
import { at, last } from "../base/at.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { GainGrid, Script } from "../sweep/sweep.js";
import { nearestEnd, type StableEnd, stableEnds } from "../theory/ends.js";
import type { LoopPieces } from "../theory/pieces.js";
import type { Interval, VariantBoundary } from "./boundary.js";
import { limitingCaseOf, roundToTwelveDigits, toDisplayD, toDisplayP } from "./display-units.js";
import type { Agreement, ComparedEnd, StepEffect } from "./theory-format.js";

const TOLERANCE = 0.5; // %

/** One throttle level and condition: a variant that is simulated there, and its loop. */
export interface Loop {
  readonly variant: Variant;
  readonly pieces: LoopPieces;
}

/** The small-signal loop and nothing else: a nudge at one throttle in still air with a silent sensor. */
export const isPlainNudge = ({ kind, noise, throttle, climb, descent, yaw, gusts }: Script): boolean =>
  kind === "nudge" &&
  !noise &&
  gusts.length === 0 &&
  throttle.every(([, value]) => value.kind === "level" && value.plus === 0) &&
  [...climb, ...descent].every(([, value]) => (value.kind === "speed" ? value.speed : value.ratio) === 0) &&
  yaw.every(([, value]) => (value.kind === "rate" ? value.rate : value.share) === 0);

/**
 * Null where no variant is a plain nudge. `decay`: the growth (1/s) below which a nudge counts as dying out; theory uses
 * the same rule.
 */
export function agreementOf(
  plan: Plan,
  loops: readonly Loop[],
  boundaries: readonly VariantBoundary[],
  decay: number,
): Agreement | null {
  const nudges = boundaries.filter(({ variant }) => isPlainNudge(at(plan.variants, variant).script));
  const [first] = nudges;
  if (first === undefined) return null;
  const compared: ComparedEnd[] = [];
  const unseen: ComparedEnd[] = [];
  for (const { variant, perD } of nudges) {
    const nudge = at(plan.variants, variant);
    const loop = loops.find((one) => sameLevel(one.variant, nudge));
    if (loop === undefined) continue;
    perD.forEach((stable, row) => {
      const place = { plan, loop: { ...loop, variant: nudge }, row };
      const ends = theoryEnds(place, decay);
      compared.push(...simulatedEnds(stable).map((end) => nearest(place, end, ends)));
      unseen.push(...contradictions(place, stable, ends));
    });
  }
  const measured = compared.filter(({ difference }) => difference !== null).sort((a, b) => size(b) - size(a));
  const over = compared.filter((end) => !(size(end) <= TOLERANCE));
  return {
    script: at(plan.variants, first.variant).script.name,
    ends: compared.length,
    median: measured.length === 0 ? null : size(at(measured, measured.length >> 1)),
    worst: measured[0] ?? null,
    tolerance: TOLERANCE,
    disagreements: [...over, ...unseen],
  };
}

const sameLevel = (one: Variant, other: Variant): boolean =>
  one.throttle === other.throttle && one.condition === other.condition;

const size = ({ difference }: ComparedEnd): number =>
  difference === null ? Number.POSITIVE_INFINITY : Math.abs(difference);

interface LoopAtD {
  readonly plan: Plan;
  readonly loop: Loop;
  readonly row: number; // D of the grid
}

const gridOf = ({ sweep }: Plan, { axis }: Variant): GainGrid => sweep.grid[axis];

/** Ends this near to the swept range's edge may lie beyond it for the trials. */
const NEAR_EDGE = 1 + TOLERANCE / 100;

const theoryEnds = ({ plan, loop: { variant, pieces }, row }: LoopAtD, decay: number): StableEnd[] =>
  stableEnds(
    pieces,
    { d: at(gridOf(plan, variant).d, row), i: plan.airframe.controller[variant.axis].i },
    gridOf(plan, variant).p,
    decay,
  );

const simulatedEnds = (stable: readonly Interval[]): StableEnd[] =>
  stable.flatMap(({ from, to, fromOpen, toOpen }) => [
    ...(fromOpen ? [] : [{ p: from, upper: false }]),
    ...(toOpen ? [] : [{ p: to, upper: true }]),
  ]);

const nearest = (place: LoopAtD, end: StableEnd, ends: readonly StableEnd[]): ComparedEnd =>
  comparedEnd(place, nearestEnd(end, ends)?.p ?? null, end.p);

function comparedEnd({ plan, loop, row }: LoopAtD, theory: number | null, simulated: number | null): ComparedEnd {
  const { throttle, condition } = limitingCaseOf(plan, loop.variant);
  return {
    throttle,
    condition,
    d: toDisplayD(at(gridOf(plan, loop.variant).d, row)),
    theory: theory === null ? null : toDisplayP(theory),
    simulated: simulated === null ? null : toDisplayP(simulated),
    difference: theory === null || simulated === null ? null : roundToTwelveDigits(100 * (simulated / theory - 1)),
  };
}

/**
 * Ends of theory that no trial shows. Two in one cell of the grid are skipped, since both corners have the same outcome; so
 * is one whose match was found across a grid line.
 */
function contradictions(place: LoopAtD, stable: readonly Interval[], ends: readonly StableEnd[]): ComparedEnd[] {
  const { p } = gridOf(place.plan, place.loop.variant);
  const cell = (end: StableEnd) => p.findIndex((line) => line >= end.p);
  const shownCells = simulatedEnds(stable).map(cell);
  return ends
    .filter((end) => end.p > at(p, 0) * NEAR_EDGE && end.p < last(p) / NEAR_EDGE)
    .filter((end) => ends.filter((other) => cell(other) === cell(end)).length % 2 === 1)
    .filter((end) => !shownCells.some((shown) => Math.abs(shown - cell(end)) <= 1))
    .map((end) => comparedEnd(place, end.p, null));
}

/** The end that the loop's own time step moves most, against the same loop stepped exactly; null where there is none. */
export function stepEffect(plan: Plan, exact: readonly Loop[], stepped: readonly Loop[]): StepEffect | null {
  const moved = stepped.flatMap((loop, index) =>
    gridOf(plan, loop.variant).d.flatMap((_, row) => {
      const place = { plan, loop, row };
      const ends = theoryEnds({ ...place, loop: { ...loop, pieces: at(exact, index).pieces } }, 0);
      return theoryEnds(place, 0).map((end) => nearest(place, end, ends));
    }),
  );
  const measured = moved.filter(({ difference }) => difference !== null).sort((a, b) => size(b) - size(a));
  return measured[0] ?? null;
}
