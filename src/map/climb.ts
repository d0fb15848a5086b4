// Which gains to fly on the way up to the starting tunes: P step by step at low D, then D, never near oscillation.
import { at, last } from "../base/at.js";
import type { Axis } from "../sweep/sweep.js";
import { roundToTwelveDigits } from "./display-units.js";
import type { AxisMap, BoundaryPoint } from "./format.js";
import { WHOLE_FROM } from "./own-scale.js";

/** Gains of one axis in one step, in display units. */
export interface Rung {
  readonly p: number;
  readonly d: number;
}

export interface ClimbStep {
  readonly stage: "p" | "d";
  /** How much of the sweep's manoeuvre is asked for, 0 to 1: its rates, its sinking, its throttle moves. */
  readonly share: number;
  readonly rungs: Readonly<Partial<Record<Axis, Rung>>>;
}

// Shares of the starting tune; each P step is about a third more than the last. Ours, no source.
const P_SHARES = Object.freeze([0.4, 0.55, 0.75, 1]);
const D_SHARES = Object.freeze([0.6, 0.8, 1]);
/** The lowest of these that leaves the climb room is the low D. */
const LOW_D_SHARES = Object.freeze([0.35, 0.45, 0.6, 0.8, 1]);
/** Manoeuvres of the first steps, as shares of the sweep's; all later steps have the whole. Ours, no source. */
const MANOEUVRE_SHARES = Object.freeze([0.4, 0.6, 0.8]);
/** Factor in P that a step keeps below the sustained boundary: 3.5 dB. */
const BOUNDARY_ROOM = 1.5;

/** The steps of both axes together, lowest first, ending at the starting tunes; empty where there is none. */
export function climbOf(axes: Readonly<Record<Axis, AxisMap>>): ClimbStep[] {
  const climbs = (["roll", "pitch"] as const)
    .map((axis) => ({ axis, ...axisClimb(axes[axis]) }))
    .filter(({ p }) => p.length > 0);
  const steps = (["p", "d"] as const).flatMap((stage) => {
    const most = Math.max(0, ...climbs.map((climb) => climb[stage].length));
    return Array.from({ length: most }, (_, k) => {
      const rungs = climbs.map((climb) => [climb.axis, rungAt(climb, stage, k - most)] as const);
      return { stage, rungs: Object.fromEntries(rungs) };
    });
  });
  // The tune itself is always met by the whole manoeuvre, however short the climb.
  return steps.map((step, k) => ({ ...step, share: k === steps.length - 1 ? 1 : (MANOEUVRE_SHARES[k] ?? 1) }));
}

interface AxisClimb {
  readonly p: readonly Rung[];
  readonly d: readonly Rung[];
}

/** Counted from the last step; an axis with fewer steps waits at its first. */
const rungAt = (climb: AxisClimb, stage: "p" | "d", fromEnd: number): Rung =>
  climb[stage].at(fromEnd) ?? (stage === "p" ? at(climb.p, 0) : last(climb.p));

function axisClimb({ start, boundary }: AxisMap): AxisClimb {
  if (start === null) return { p: [], d: [] };
  const { p, d, own } = start;
  const share = LOW_D_SHARES.find((low) => hasRoom(boundary.sustained, p, low * d)) ?? 1;
  const low = roundedSetting(d, share, own?.d ?? null);
  const lowest = Math.max(0, ...neighboursInD(boundary.sustained, low).map(({ from }) => from ?? 0));
  const shares = d > 0 ? D_SHARES.filter((part) => part > share) : [];
  return {
    p: P_SHARES.map((part) => ({ p: roundedSetting(p, part, own?.p ?? null), d: low })).filter(
      (rung) => rung.p > lowest,
    ),
    d: shares.map((part) => ({ p, d: roundedSetting(d, part, own?.d ?? null) })),
  };
}

/** A share of a gain as it can be entered; `own` is the full gain in the controller's numbers. The last step is exact. */
function roundedSetting(gain: number, share: number, own: number | null): number {
  if (share === 1) return gain;
  if (own !== null && own * share >= WHOLE_FROM) return roundToTwelveDigits((Math.round(own * share) * gain) / own);
  return Number((gain * share).toPrecision(3));
}

const hasRoom = (points: readonly BoundaryPoint[], p: number, d: number): boolean =>
  neighboursInD(points, d).every((point) => point.reason === "never" || (point.p ?? 0) >= BOUNDARY_ROOM * p);

/** The boundary at the swept D on either side: between them the worse one counts. */
function neighboursInD(points: readonly BoundaryPoint[], d: number): BoundaryPoint[] {
  const after = points.findIndex((point) => point.d >= d);
  const at = after < 0 ? points.length - 1 : after;
  return points.slice(points[at]?.d === d ? at : Math.max(0, at - 1), at + 1);
}
