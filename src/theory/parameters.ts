// Parameters of a model that somebody measures, weighs or looks up, each with the model in which it alone is scaled.
import type { Airframe, Notch, ScheduledLowPass, TrackingNotch, Vector3 } from "../airframe/airframe.js";
import { parameterTitle, type TitledKey } from "../base/parameter-titles.js";
import type { AxisName } from "./plant.js";

export interface Parameter {
  /** As the model file spells it. */
  readonly key: string;
  readonly title: string;
  /** The airframe with the parameter `factor` times as large and everything else unchanged. */
  readonly scaled: (airframe: Airframe, factor: number) => Airframe;
}

const parameter = (key: TitledKey, scaled: Parameter["scaled"]): Parameter => ({
  key,
  title: parameterTitle(key),
  scaled,
});

const propeller = (change: (one: Airframe["propeller"], factor: number) => Partial<Airframe["propeller"]>) =>
  component("propeller", change);
const motor = (change: (one: Airframe["motor"], factor: number) => Partial<Airframe["motor"]>) =>
  component("motor", change);
const pack = (change: (one: Airframe["pack"], factor: number) => Partial<Airframe["pack"]>) =>
  component("pack", change);

function component<K extends "propeller" | "motor" | "pack">(
  key: K,
  change: (one: Airframe[K], factor: number) => Partial<Airframe[K]>,
): Parameter["scaled"] {
  return (airframe, factor) => ({ ...airframe, [key]: { ...airframe[key], ...change(airframe[key], factor) } });
}

function spread(airframe: Airframe, factor: number): Airframe {
  const [x, y] = airframe.centreOfMass;
  const out = (from: number, at: number) => from + factor * (at - from);
  const rotors = airframe.rotors.map(({ at, spin }) => ({
    spin,
    at: [out(x, at[0]), out(y, at[1]), at[2]] as Vector3,
  }));
  return { ...airframe, rotors };
}

const LATENCY = "controller.latency";

const COMMON: readonly Parameter[] = [
  parameter("frame.mass", (one, f) => ({ ...one, mass: one.mass * f })),
  parameter("rotors.at", spread),
  parameter(
    "propeller.diameter",
    propeller(({ diameter }, f) => ({ diameter: diameter * f })),
  ),
  parameter(
    "propeller.ct",
    propeller(({ ct }, f) => ({ ct: ct * f })),
  ),
  parameter(
    "propeller.cp",
    propeller(({ cp, cpSlope }, f) => ({ cp: cp * f, cpSlope: cpSlope * f })),
  ),
  parameter(
    "propeller.zero_thrust_advance",
    propeller(({ zeroThrustAdvance }, f) => ({ zeroThrustAdvance: zeroThrustAdvance * f })),
  ),
  parameter(
    "propeller.inertia",
    propeller(({ inertia }, f) => ({ inertia: inertia * f })),
  ),
  parameter(
    "motor.kv",
    motor(({ constant }, f) => ({ constant: constant / f })),
  ),
  parameter(
    "motor.resistance",
    motor(({ resistance }, f) => ({ resistance: resistance * f })),
  ),
  parameter(
    "motor.no_load_current",
    motor(({ noLoadCurrent }, f) => ({ noLoadCurrent: noLoadCurrent * f })),
  ),
  parameter(
    "motor.bell_inertia",
    motor(({ bellInertia }, f) => ({ bellInertia: bellInertia * f })),
  ),
  parameter(
    "pack.open_circuit",
    pack(({ openCircuit }, f) => ({ openCircuit: openCircuit.map(([charge, volts]) => [charge, volts * f] as const) })),
  ),
  parameter(
    "pack.resistance",
    pack(({ resistance }, f) => ({ resistance: resistance * f })),
  ),
  parameter(LATENCY, (one, f) => ({
    ...one,
    controller: { ...one.controller, latency: one.controller.latency * f },
  })),
];

const HIGHEST = 0.49; // of the loop's rate

/** All notches of a chain, which the loop's rate keeps in bounds. */
function notches(airframe: Airframe, chain: "gyro" | "slope", key: keyof Notch, factor: number): Airframe {
  const { sensing, controller } = airframe;
  const moved = (list: readonly Notch[] = []): Notch[] =>
    list.map((one) => ({ ...one, [key]: Math.min(factor * one[key], HIGHEST * controller.rate) }));
  return chain === "gyro"
    ? { ...airframe, sensing: { ...sensing, notch: moved(sensing.notch) } }
    : { ...airframe, controller: { ...controller, derivativeNotch: moved(controller.derivativeNotch) } };
}

const OF_GYRO_NOTCH: readonly Parameter[] = [
  parameter("sensing.notch.centre", (one, f) => notches(one, "gyro", "centre", f)),
  parameter("sensing.notch.width", (one, f) => notches(one, "gyro", "width", f)),
];

const OF_SLOPE_NOTCH: readonly Parameter[] = [
  parameter("controller.rate_derivative_notch.centre", (one, f) => notches(one, "slope", "centre", f)),
  parameter("controller.rate_derivative_notch.width", (one, f) => notches(one, "slope", "width", f)),
];

/** Of one chain, as `notches`. */
function corners(airframe: Airframe, chain: "gyro" | "slope", factor: number): Airframe {
  const { sensing, controller } = airframe;
  const moved = (list: readonly ScheduledLowPass[] = []): ScheduledLowPass[] =>
    list.map(({ order, corners: rows }) => ({
      order,
      corners: rows.map(({ throttle, cutoff }) => ({
        throttle,
        cutoff: Math.min(factor * cutoff, HIGHEST * controller.rate),
      })),
    }));
  return chain === "gyro"
    ? { ...airframe, sensing: { ...sensing, lowPassSchedule: moved(sensing.lowPassSchedule) } }
    : {
        ...airframe,
        controller: { ...controller, derivativeFilterSchedule: moved(controller.derivativeFilterSchedule) },
      };
}

/** Of one chain, as `notches`; none is wider than where it stands. */
function tracking(
  airframe: Airframe,
  chain: "gyro" | "slope",
  key: Exclude<keyof TrackingNotch, "harmonic">,
  factor: number,
): Airframe {
  const { sensing, controller } = airframe;
  const most = key === "width" ? 1 : HIGHEST * controller.rate;
  const moved = (list: readonly TrackingNotch[] = []): TrackingNotch[] =>
    list.map((one) => ({ ...one, [key]: Math.min(factor * one[key], most) }));
  return chain === "gyro"
    ? { ...airframe, sensing: { ...sensing, trackingNotch: moved(sensing.trackingNotch) } }
    : {
        ...airframe,
        controller: { ...controller, derivativeTrackingNotch: moved(controller.derivativeTrackingNotch) },
      };
}

const OF_GYRO_CORNERS: readonly Parameter[] = [
  parameter("sensing.low_pass_schedule", (one, f) => corners(one, "gyro", f)),
];

const OF_GYRO_TRACKING: readonly Parameter[] = [
  parameter("sensing.tracking_notch.width", (one, f) => tracking(one, "gyro", "width", f)),
  parameter("sensing.tracking_notch.lowest", (one, f) => tracking(one, "gyro", "lowest", f)),
];

const OF_SLOPE_CORNERS: readonly Parameter[] = [
  parameter("controller.rate_derivative_filter_schedule", (one, f) => corners(one, "slope", f)),
];

const OF_SLOPE_TRACKING: readonly Parameter[] = [
  parameter("controller.rate_derivative_tracking_notch.width", (one, f) => tracking(one, "slope", "width", f)),
  parameter("controller.rate_derivative_tracking_notch.lowest", (one, f) => tracking(one, "slope", "lowest", f)),
];

const OF_SCHEDULE: readonly Parameter[] = [
  parameter("controller.gain_schedule", ({ controller, ...one }, f) => ({
    ...one,
    controller: {
      ...controller,
      gainSchedule: (controller.gainSchedule ?? []).map(({ throttle, p, i, d }) => ({
        throttle,
        p: p * f,
        i: i * f,
        d: d * f,
      })),
    },
  })),
];

const OF_PACK_COMPENSATION: readonly Parameter[] = [
  parameter("controller.pack_compensation.nominal", ({ controller, ...one }, f) => {
    const { packCompensation: given } = controller;
    if (given === undefined) return { ...one, controller };
    return { ...one, controller: { ...controller, packCompensation: { ...given, nominal: given.nominal * f } } };
  }),
];

/** No duty is more than full. */
const OF_DUTY_TABLE: readonly Parameter[] = [
  parameter("controller.duty_table", ({ controller, ...one }, f) => ({
    ...one,
    controller: {
      ...controller,
      dutyTable: (controller.dutyTable ?? []).map(({ command, duty }) => ({ command, duty: Math.min(1, duty * f) })),
    },
  })),
];

/** Inertia about the axis itself; the products are left as they are. */
const inertiaAbout = (axis: AxisName): Parameter => {
  const key = { roll: "xx", pitch: "yy", yaw: "zz" }[axis] as "xx" | "yy" | "zz";
  return parameter(`frame.inertia.${key}`, (one, f) => ({
    ...one,
    inertia: { ...one.inertia, [key]: one.inertia[key] * f },
  }));
};

/** Those of a craft that its model has: where the latency is none, there is none to move. */
export const parametersOf = (axis: AxisName, { sensing, controller }: Airframe): readonly Parameter[] => [
  inertiaAbout(axis),
  ...COMMON.filter(({ key }) => key !== LATENCY || controller.latency > 0),
  ...(sensing.notch === undefined ? [] : OF_GYRO_NOTCH),
  ...(sensing.lowPassSchedule === undefined ? [] : OF_GYRO_CORNERS),
  ...(sensing.trackingNotch === undefined ? [] : OF_GYRO_TRACKING),
  ...(controller.gainSchedule === undefined ? [] : OF_SCHEDULE),
  ...(controller.packCompensation === undefined ? [] : OF_PACK_COMPENSATION),
  ...(controller.dutyTable === undefined ? [] : OF_DUTY_TABLE),
  ...(controller.derivativeNotch === undefined ? [] : OF_SLOPE_NOTCH),
  ...(controller.derivativeFilterSchedule === undefined ? [] : OF_SLOPE_CORNERS),
  ...(controller.derivativeTrackingNotch === undefined ? [] : OF_SLOPE_TRACKING),
];
