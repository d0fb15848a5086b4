// What may stand in a safe tune's way, each with changes of the model or the sweep that take it away, the mildest first.
import type { Airframe, LowPass, Notch, ScheduledLowPass, TrackingNotch } from "../airframe/airframe.js";
import { pow } from "../base/elementary.js";
import { centreOffset } from "../sheet/geometry.js";
import type { Axis, Sweep } from "../sweep/sweep.js";

/** What a plan is made from. */
export interface Question {
  readonly airframe: Airframe;
  readonly sweep: Sweep;
}

export interface Mend {
  readonly key: MendKey;
  /** What the number is multiplied by (a filter's: its delay), the mildest change first. */
  readonly factors: readonly number[];
  /** The changed question; null where there is nothing to change. */
  readonly changed: (question: Question, axis: Axis, factor: number) => Question | null;
}

export type MendKey =
  | "grid"
  | "frame"
  | "conditions"
  | "sensing.low_pass"
  | "controller.rate_derivative_filter"
  | "sensing.notch"
  | "controller.rate_derivative_notch"
  | "sensing.low_pass_schedule"
  | "sensing.tracking_notch"
  | "controller.rate_derivative_filter_schedule"
  | "controller.rate_derivative_tracking_notch"
  | "controller.latency"
  | "sensing.noise"
  | "sensing.vibration"
  | "wash"
  | "controller.gains"
  | "propeller.inertia"
  | "frame.mass";

const WIDER = 3; // as a factor, of the swept range to either side
const NOTICEABLE = 5e-4; // m

/** Likely ones first: where two changes are as mild, the earlier one is named. */
export const MENDS: readonly Mend[] = [
  { key: "grid", factors: [WIDER], changed: ({ airframe, sweep }) => ({ airframe, sweep: widened(sweep) }) },
  { key: "frame", factors: [0.5, 0.25, 0], changed: balanced },
  {
    key: "conditions",
    factors: [0],
    changed: ({ airframe, sweep }) =>
      sweep.conditions.every(({ payload }) => payload === null)
        ? null
        : {
            airframe,
            sweep: { ...sweep, conditions: sweep.conditions.map((one) => ({ ...one, payload: null })) },
          },
  },
  {
    key: "sensing.low_pass",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const lowPass = quicker(one, one.sensing.lowPass, factor);
      return lowPass === null ? null : { ...one, sensing: { ...one.sensing, lowPass } };
    }),
  },
  {
    key: "controller.rate_derivative_filter",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const derivativeFilter = quicker(one, one.controller.derivativeFilter, factor);
      return derivativeFilter === null ? null : { ...one, controller: { ...one.controller, derivativeFilter } };
    }),
  },
  {
    key: "sensing.notch",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const { notch } = one.sensing;
      return notch === undefined ? null : { ...one, sensing: { ...one.sensing, notch: narrower(notch, factor) } };
    }),
  },
  {
    key: "controller.rate_derivative_notch",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const { derivativeNotch: notch } = one.controller;
      if (notch === undefined) return null;
      return { ...one, controller: { ...one.controller, derivativeNotch: narrower(notch, factor) } };
    }),
  },
  {
    key: "sensing.low_pass_schedule",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const lowPassSchedule = quickerSchedules(one, one.sensing.lowPassSchedule, factor);
      return lowPassSchedule === null ? null : { ...one, sensing: { ...one.sensing, lowPassSchedule } };
    }),
  },
  {
    key: "sensing.tracking_notch",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const { trackingNotch: notch } = one.sensing;
      if (notch === undefined) return null;
      return { ...one, sensing: { ...one.sensing, trackingNotch: narrower(notch, factor) } };
    }),
  },
  {
    key: "controller.rate_derivative_filter_schedule",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const derivativeFilterSchedule = quickerSchedules(one, one.controller.derivativeFilterSchedule, factor);
      if (derivativeFilterSchedule === null) return null;
      return { ...one, controller: { ...one.controller, derivativeFilterSchedule } };
    }),
  },
  {
    key: "controller.rate_derivative_tracking_notch",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const { derivativeTrackingNotch: notch } = one.controller;
      if (notch === undefined) return null;
      return { ...one, controller: { ...one.controller, derivativeTrackingNotch: narrower(notch, factor) } };
    }),
  },
  {
    key: "controller.latency",
    factors: [0.5, 0.25],
    changed: changedModel((one, factor) => {
      const { latency } = one.controller;
      if (latency === 0) return null;
      return { ...one, controller: { ...one.controller, latency: latency * factor } };
    }),
  },
  {
    key: "sensing.noise",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) =>
      one.sensing.noiseDensity === 0
        ? null
        : { ...one, sensing: { ...one.sensing, noiseDensity: one.sensing.noiseDensity * factor } },
    ),
  },
  {
    key: "sensing.vibration",
    factors: [0.5, 0.25, 0.1],
    changed: changedModel((one, factor) => {
      const { vibration } = one.sensing;
      if (vibration.every(({ atHover }) => atHover === 0)) return null;
      const calmer = vibration.map((line) => ({ ...line, atHover: line.atHover * factor }));
      return { ...one, sensing: { ...one.sensing, vibration: calmer } };
    }),
  },
  {
    key: "wash",
    factors: [0.5, 0.25],
    changed: changedModel((one, factor) => {
      const { rms, loss } = one.wash;
      return rms + loss === 0 ? null : { ...one, wash: { ...one.wash, rms: rms * factor, loss: loss * factor } };
    }),
  },
  { key: "controller.gains", factors: [0.5, 0.25, 0], changed: gentlerIntegral },
  {
    key: "propeller.inertia",
    factors: [0.7, 0.5],
    changed: changedModel((one, factor) => ({
      ...one,
      propeller: { ...one.propeller, inertia: one.propeller.inertia * factor },
      motor: { ...one.motor, bellInertia: one.motor.bellInertia * factor },
    })),
  },
  {
    key: "frame.mass",
    factors: [0.8, 0.6],
    changed: changedModel((one, factor) => {
      const lighter = Object.entries(one.inertia).map(([key, value]: [string, number]) => [key, value * factor]);
      return { ...one, mass: one.mass * factor, inertia: Object.fromEntries(lighter) as Airframe["inertia"] };
    }),
  },
];

function changedModel(change: (airframe: Airframe, factor: number) => Airframe | null): Mend["changed"] {
  return ({ airframe, sweep }, _, factor) => {
    const changed = change(airframe, factor);
    return changed === null ? null : { airframe: changed, sweep };
  };
}

/** The centre of mass nearer to the rotors' middle, along the axis that a throttle burst would turn. */
function balanced({ airframe, sweep }: Question, axis: Axis, factor: number): Question | null {
  const [x, y] = centreOffset(airframe);
  const off = axis === "pitch" ? x : y;
  if (Math.abs(off) < NOTICEABLE) return null;
  const back = (1 - factor) * off;
  const [cx, cy, cz] = airframe.centreOfMass;
  const centreOfMass = axis === "pitch" ? ([cx - back, cy, cz] as const) : ([cx, cy - back, cz] as const);
  return { airframe: { ...airframe, centreOfMass }, sweep };
}

/** With `factor` of their delay, in all but the widest. */
const narrower = <N extends Notch | TrackingNotch>(notches: readonly N[], factor: number): N[] =>
  notches.map((notch) => ({ ...notch, width: notch.width * factor }));

const HIGHEST = 0.45; // of the loop's rate

/** Stages with `factor` of their delay; null where there are none, or their corners are at the top already. */
function quicker(airframe: Airframe, stages: readonly LowPass[], factor: number): LowPass[] | null {
  const higher = stages.map(({ order, cutoff }) => ({ order, cutoff: raised(airframe, cutoff, factor) }));
  return higher.some(({ cutoff }, k) => cutoff > (stages[k]?.cutoff ?? 0)) ? higher : null;
}

/** The same of corners that go with throttle. */
function quickerSchedules(
  airframe: Airframe,
  stages: readonly ScheduledLowPass[] = [],
  factor: number,
): ScheduledLowPass[] | null {
  let moved = false;
  const higher = stages.map(({ order, corners }) => ({
    order,
    corners: corners.map(({ throttle, cutoff }) => {
      const now = raised(airframe, cutoff, factor);
      moved ||= now > cutoff;
      return { throttle, cutoff: now };
    }),
  }));
  return moved ? higher : null;
}

const raised = ({ controller }: Airframe, cutoff: number, factor: number): number =>
  Math.max(cutoff, Math.min(cutoff / factor, HIGHEST * controller.rate));

function gentlerIntegral({ airframe, sweep }: Question, axis: Axis, factor: number): Question | null {
  const { controller } = airframe;
  const gains = controller[axis];
  if (gains.i === 0) return null;
  const gentler = { ...controller, [axis]: { ...gains, i: gains.i * factor } };
  return { airframe: { ...airframe, controller: gentler }, sweep };
}

const LINES = 12;

/** A coarse grid that reaches further out on all sides: P in equal factors, D from 0 in growing steps. */
function widened(sweep: Sweep): Sweep {
  const steps = Array.from({ length: LINES }, (_, k) => k / (LINES - 1));
  const wide = ({ p, d }: Sweep["grid"][Axis]): Sweep["grid"][Axis] => {
    const [low, high] = [Math.min(...p.filter((gain) => gain > 0)) / WIDER, Math.max(...p) * WIDER];
    const most = Math.max(...d) * WIDER;
    return { p: steps.map((share) => low * pow(high / low, share)), d: steps.map((share) => share * share * most) };
  };
  return { ...sweep, pinned: null, grid: { roll: wide(sweep.grid.roll), pitch: wide(sweep.grid.pitch) } };
}
