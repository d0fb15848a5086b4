// What one unit of P, I and D is worth on the controller that flew: the gains that acted over the gains that were set, per axis,
// and over axes where they agree.
import type { Airframe } from "../airframe/airframe.js";
import { mixerOf } from "../airframe/mixer.js";
import { at } from "../base/at.js";
import { commandShares, mixed } from "../flight/axis-commands.js";
import type { Flight } from "../flight/flight.js";
import { type FlightLog, LOG_AXES, type LogAxis } from "../flight/log.js";
import { actingGains } from "./axis-units.js";
import type { Estimated, FittedUnit } from "./format.js";
import { loggedCommands } from "./logged-commands.js";

const GAINS = ["p", "i", "d"] as const;

type Gain = FittedUnit["gain"];

/** Of one axis, whose gain was set to a number above 0. */
interface AxisUnit {
  readonly axis: LogAxis;
  readonly set: FittedUnit["set"];
  readonly found: { readonly value: number; readonly half: number } | null;
  readonly why: string;
}

/**
 * One entry per gain and group of axes that agree, in SI per unit as set (fraction per rad/s, per rad, per rad/s^2), each an
 * interval that holds 95 of 100. Gains that were set to 0 or not at all have none.
 */
export function fittedUnits(log: FlightLog, airframe: Airframe, gains: Flight["gains"]): FittedUnit[] {
  const commands = loggedCommands(log, airframe);
  const mixer = mixerOf(airframe.rotors, airframe.centreOfMass);
  const acting = LOG_AXES.map((axis) =>
    typeof commands === "string"
      ? null
      : actingGains(log, airframe, axis, {
          command: mixed(commands.rotors, commandShares(mixer, axis)),
          ...commands,
        }),
  );
  return GAINS.flatMap((gain) => {
    const units = LOG_AXES.flatMap((axis, a): AxisUnit[] => {
      const set = gains[axis];
      const number = set?.[gain] ?? null;
      if (set === undefined || number === null || number === 0 || (axis === "yaw" && gain === "d")) return [];
      const found = acting[a]?.[gain] ?? null;
      return [
        {
          axis,
          set: set.own ? "own" : "si",
          found: found === null ? null : { value: found.value / number, half: found.half / Math.abs(number) },
          why: acting[a]?.why[gain] ?? String(commands),
        },
      ];
    });
    return (["own", "si"] as const).flatMap((set) =>
      pooled(
        gain,
        set,
        units.filter((unit) => unit.set === set),
      ),
    );
  });
}

/** One entry per group of axes that agree; those that tell nothing are named together. */
function pooled(gain: Gain, set: FittedUnit["set"], units: readonly AxisUnit[]): FittedUnit[] {
  const estimates = units.flatMap(({ found, ...unit }): UnitEstimate[] => (found === null ? [] : [{ ...unit, found }]));
  const unknown = units.filter(({ found }) => found === null);
  const silent = [...new Set(unknown.map(({ why }) => why))].map((why): FittedUnit => {
    const axes = unknown.filter((unit) => unit.why === why).map(({ axis }) => axis);
    return { gain, axes, set, value: null, why };
  });
  return [...agreeing(estimates).map((group) => unitOf(gain, set, group, estimates)), ...silent];
}

type UnitEstimate = AxisUnit & { readonly found: NonNullable<AxisUnit["found"]> };

/** Axes that agree: all, or roll and pitch, as many a controller's yaw has units of its own, or each for itself. */
function agreeing(estimates: readonly UnitEstimate[]): readonly (readonly UnitEstimate[])[] {
  const agree = (group: readonly UnitEstimate[]) =>
    group.length < 2 || weightedMean(group.map(({ found }) => found)).disagreement <= DISAGREE;
  const [tilting, yaw] = [
    estimates.filter(({ axis }) => axis !== "yaw"),
    estimates.filter(({ axis }) => axis === "yaw"),
  ];
  if (estimates.length === 0) return [];
  if (agree(estimates)) return [estimates];
  return agree(tilting) ? [tilting, yaw] : estimates.map((one) => [one]);
}

function unitOf(
  gain: Gain,
  set: FittedUnit["set"],
  group: readonly UnitEstimate[],
  estimates: readonly UnitEstimate[],
): FittedUnit {
  const axes = group.map(({ axis }) => axis);
  const apart = group.length === 1 && estimates.length > 1;
  const reasons = [
    ...(apart ? [`${axes[0]} differs from the other axes by more than chance`] : []),
    ...group.map(({ why }) => why).filter((text) => text !== ""),
  ];
  const value = interval(weightedMean(group.map(({ found }) => found)));
  return { gain, axes, set, value, why: (apart ? reasons : reasons.slice(0, 1)).join("; ") };
}

/** Chi square over its degrees of freedom beyond which axes do not agree: 95 of 100 that do lie below 3.84 with one and 3.00 with two. */
const DISAGREE = 3.84;

function weightedMean(found: readonly { readonly value: number; readonly half: number }[]) {
  const weights = found.map(({ half }) => 1 / (half * half));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const value = found.reduce((sum, one, k) => sum + one.value * at(weights, k), 0) / total;
  // half widths are two standard deviations
  const square = found.reduce((sum, one, k) => sum + 4 * at(weights, k) * (one.value - value) ** 2, 0);
  // the axes share the log, its rounding and what lies between its rows: together they are no surer than the surest
  return {
    value,
    half: Math.min(...found.map(({ half }) => half)),
    disagreement: square / Math.max(1, found.length - 1),
  };
}

const interval = ({ value, half }: { readonly value: number; readonly half: number }): Estimated => ({
  middle: value,
  low: value - half,
  high: value + half,
});
