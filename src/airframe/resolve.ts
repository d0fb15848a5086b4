// From a checked model file to the frozen Airframe: SI, complete, with a list of what was assumed.
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { deepFreeze } from "../base/freeze.js";
import { InputError } from "../base/problem.js";
import { spreadsIn } from "../base/spreads-in.js";
import { figures, inUnitOf } from "../base/units.js";
import type {
  Airframe,
  Controller,
  FeedForward,
  LowPass,
  Pack,
  Propeller,
  ScheduledLowPass,
  Sensing,
  Wash,
} from "./airframe.js";
import { correlationFaults } from "./correlation-faults.js";
import type { Fault } from "./fault.js";
import { fileFaults, NEAR_HOVER } from "./file-faults.js";
import { hoverFaults } from "./hover-faults.js";
import { assemble, turnedMore } from "./inertia.js";
import { motorConstant } from "./motor.js";
import { CELL_OPEN_CIRCUIT } from "./pack.js";
import { bodiesOf, vector } from "./parts.js";
import { cpSlopeFromTable } from "./rotor.js";
import { type AirframeFile, airframeSchema } from "./schema.js";

/** The airframe of a model document; InputError with every problem found. */
export function parseAirframe(document: Document): Airframe {
  const file = check(airframeSchema, document);
  refuse(document, fileFaults(file));
  const { correlations } = file;
  const spreads = spreadsIn(airframeSchema, document.data).map(({ path: _, ...spread }) => spread);
  refuse(document, correlationFaults(correlations ?? [], spreads, document.data));
  const airframe = deepFreeze({
    ...resolvedAirframe(file),
    ...(spreads.length === 0 ? {} : { spreads }),
    ...(correlations === undefined ? {} : { correlations }),
  });
  refuse(document, hoverFaults(airframe));
  return airframe;
}

function refuse(document: Document, faults: readonly Fault[]): void {
  if (faults.length > 0) throw new InputError(faults.map(({ path, message }) => problemAt(document, path, message)));
}

/** Takes what the file gives, or the fallback with a line in `defaulted`. */
type Assume = <T>(given: T | undefined, fallback: T, line: string) => T;

/** The airframe of a file without faults, and without its spreads and correlations. */
export function resolvedAirframe(file: AirframeFile): Airframe {
  const defaulted: string[] = [];
  const assume: Assume = (given, fallback, line) => {
    if (given === undefined) defaulted.push(line);
    return given ?? fallback;
  };
  const { kv, resistance, no_load_current: noLoadCurrent, bell_inertia: bellInertia } = file.motor;
  return {
    name: file.name,
    version: file.version,
    title: file.title,
    ...bodyOf(file),
    rotors: file.rotors.map(({ at, spin }) => ({ at: vector(at), spin: spin === "ccw" ? 1 : -1 })),
    propeller: propellerOf(file, assume),
    motor: { constant: motorConstant(inUnitOf(kv, "speedConstant", "rpm/V")), resistance, noLoadCurrent, bellInertia },
    pack: packOf(file, assume),
    sensing: sensingOf(file, assume),
    controller: controllerOf(file, assume),
    wash: washOf(file, assume),
    defaulted,
  };
}

type Body = Pick<Airframe, "mass" | "centreOfMass" | "inertia">;

function bodyOf(file: AirframeFile): Body {
  const body = bodyAsWeighed(file);
  return file.loop_gain === undefined ? body : { ...body, inertia: turnedMore(body.inertia, file.loop_gain) };
}

function bodyAsWeighed({ frame, rotors }: AirframeFile): Body {
  if (frame.parts !== undefined)
    return assemble(
      bodiesOf(
        frame.parts,
        rotors.map(({ at }) => vector(at)),
      ),
    );
  const { xx = 0, yy = 0, zz = 0, xy = 0, xz = 0, yz = 0 } = frame.inertia ?? {};
  return {
    mass: frame.mass ?? 0,
    centreOfMass: vector(frame.centre_of_mass ?? []),
    inertia: { xx, yy, zz, xy, xz, yz },
  };
}

// Share of cp lost per unit of advance ratio where a model has no table: the measured 5.0x4.3 propeller of
// the UIUC Propeller Database, vol. 2, between J 0.09 and 0.38.
const POWER_FALL = -0.45;

function propellerOf({ propeller }: AirframeFile, assume: Assume): Propeller {
  const { diameter, blades, ct, cp, inertia, table } = propeller;
  const slope = table === undefined ? undefined : cpSlopeFromTable(table, cp, NEAR_HOVER);
  return {
    diameter,
    blades,
    ct,
    cp,
    inertia,
    cpSlope: assume(
      slope,
      POWER_FALL * cp,
      `propeller.table: power falls by ${-100 * POWER_FALL} % of cp per unit of advance ratio`,
    ),
    zeroThrustAdvance: assume(
      propeller.zero_thrust_advance,
      -ct / thrustSlope(propeller),
      "propeller.zero_thrust_advance: from the slope of ct in the table's rows near hover",
    ),
  };
}

/** Slope of ct through the static value, by the same least squares as that of cp; fileFaults has made sure that there are rows. */
function thrustSlope({ table = [], ct }: AirframeFile["propeller"]): number {
  const rows = table.flatMap((row) => (row.ct === undefined ? [] : [{ j: row.j, cp: row.ct }]));
  return rows.length === 0 ? Number.NaN : cpSlopeFromTable(rows, ct, NEAR_HOVER);
}

function packOf({ pack }: AirframeFile, assume: Assume): Pack {
  const { cells, capacity, resistance, open_circuit: rows } = pack;
  const curve = rows?.map(({ charge, voltage }) => [charge, voltage] as const);
  const line = "pack.open_circuit: the published lithium cell curve, 4.2 V when full";
  return { cells, capacity, resistance, openCircuit: assume(curve, CELL_OPEN_CIRCUIT, line) };
}

const stages = (given: readonly { order: number; cutoff: number }[]): LowPass[] =>
  given.map(({ order, cutoff }) => ({ order: order === 1 ? 1 : 2, cutoff }));

/** Under its key where the file has any: a model without stays what it was before there were any. */
const some = <K extends string, T>(key: K, given: readonly T[] = []): { readonly [key in K]?: readonly T[] } =>
  (given.length === 0 ? {} : { [key]: given }) as { readonly [key in K]?: readonly T[] };

const schedules = (given: AirframeFile["sensing"]["low_pass_schedule"]): ScheduledLowPass[] | undefined =>
  given?.map(({ order, corners }) => ({ order: order === 1 ? 1 : 2, corners }));

function sensingOf({ sensing }: AirframeFile, assume: Assume): Sensing {
  return {
    noiseDensity: sensing.noise,
    lowPass: stages(assume(sensing.low_pass, [], "sensing.low_pass: none")),
    ...some("notch", sensing.notch),
    ...some("lowPassSchedule", schedules(sensing.low_pass_schedule)),
    ...some("trackingNotch", sensing.tracking_notch),
    vibration: assume(
      sensing.vibration?.map(({ harmonic, at_hover: atHover }) => ({ harmonic, atHover })),
      [],
      "sensing.vibration: none, so D looks cooler than it will be in flight",
    ),
  };
}

/** A factor that a row leaves out is 1. */
function scheduleOf(rows: AirframeFile["controller"]["gain_schedule"]): Pick<Controller, "gainSchedule"> {
  if (rows === undefined) return {};
  return { gainSchedule: rows.map(({ throttle, p = 1, i = 1, d = 1 }) => ({ throttle, p, i, d })) };
}

/** What an axis leaves out is 0. */
function aheadOf({ feed_forward: given }: AirframeFile["controller"]): Pick<Controller, "feedForward"> {
  if (given === undefined) return {};
  const of = (axis: "roll" | "pitch" | "yaw"): FeedForward => {
    const { rate = 0, slope = 0 } = given[axis] ?? {};
    return { rate, slope };
  };
  return { feedForward: { roll: of("roll"), pitch: of("pitch"), yaw: of("yaw") } };
}

function controllerOf({ controller }: AirframeFile, assume: Assume): Controller {
  const { rate, latency, idle, gains } = controller;
  const swept = ({ p, i, d }: AirframeFile["controller"]["gains"]["roll"]) => ({ p: p ?? null, i, d: d ?? null });
  return {
    rate,
    latency,
    idle,
    substeps: controller.substeps ?? null,
    derivativeFilter: stages(assume(controller.rate_derivative_filter, [], "controller.rate_derivative_filter: none")),
    ...some("derivativeNotch", controller.rate_derivative_notch),
    ...some("derivativeFilterSchedule", schedules(controller.rate_derivative_filter_schedule)),
    ...some("derivativeTrackingNotch", controller.rate_derivative_tracking_notch),
    integralLimit: assume(controller.integral_limit, 0.3, "controller.integral_limit: 30 %"),
    roll: swept(gains.roll),
    pitch: swept(gains.pitch),
    yaw: { ...gains.yaw, d: 0 },
    scale: scaleOf(controller.one_unit),
    ...some("commandLowPass", stages(controller.command_low_pass ?? [])),
    ...aheadOf(controller),
    ...(controller.pack_compensation === undefined ? {} : { packCompensation: controller.pack_compensation }),
    ...(controller.duty_table === undefined ? {} : { dutyTable: controller.duty_table }),
    ...scheduleOf(controller.gain_schedule),
  };
}

function scaleOf(unit: AirframeFile["controller"]["one_unit"]): Controller["scale"] {
  if (unit === undefined) return null;
  const { p, i, d, yaw } = unit;
  const withI = (i: number | undefined) => (i === undefined ? {} : { i });
  return { p, d, ...withI(i), ...(yaw === undefined ? {} : { yaw: { p: yaw.p, ...withI(yaw.i) } }) };
}

/** Our own estimates: no published figure fits a craft of this size, so they are to be calibrated in flight. */
const WASH: Wash = { rms: 0.12, loss: 0.15, revolutions: 30, correlation: 0.3 };

function washOf({ wash = {} }: AirframeFile, assume: Assume): Wash {
  const percent = (key: "rms" | "loss" | "correlation"): number =>
    assume(wash[key], WASH[key], `wash.${key}: ${figures(100 * WASH[key])} %, an estimate to calibrate in flight`);
  return {
    rms: percent("rms"),
    loss: percent("loss"),
    revolutions: assume(
      wash.revolutions,
      WASH.revolutions,
      `wash.revolutions: ${WASH.revolutions} per burst, measured rotors lie between 20 and 50`,
    ),
    correlation: percent("correlation"),
  };
}
