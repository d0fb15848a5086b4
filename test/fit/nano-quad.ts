// The real craft's logs, read by hand, and what the fit makes of them; what others found, beside it.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { mixerOf } from "../../src/airframe/mixer.js";
import type { TimeRange } from "../../src/fit/even-grid.js";
import { measuredResponse } from "../../src/fit/measured-response.js";
import { predicted, shapeResponse } from "../../src/fit/prediction.js";
import type { ResponseEstimate } from "../../src/fit/response-estimate.js";
import { type ShapeFit, shapeOf } from "../../src/fit/shape.js";
import type { FlightLog } from "../../src/flight/log.js";
import { readAirframe } from "../../src/flow/read.js";
import { stableIntervals } from "../../src/theory/boundary.js";
import { allPole, continuousLoop } from "../theory/plain-plants.js";

const FLIGHTS = fileURLToPath(new URL("../fixtures/flights/", import.meta.url));
const DEG = Math.PI / 180;
/** Column of each of the model's rotors: front left, rear left, rear right, front right. */
const MOTORS = ["motor_4", "motor_3", "motor_2", "motor_1"];

function readLog(file: string): FlightLog {
  const [head = "", ...lines] = readFileSync(`${FLIGHTS}${file}`, "utf8").trim().split("\n");
  const names = head.split(",");
  const rows = lines.map((line) => line.split(",").map(Number));
  const column = (name: string, unit: number, from = 0) =>
    Float64Array.from(rows, (row) => ((row[names.indexOf(name)] ?? Number.NaN) - from) * unit);
  const time = column("time_us", 1e-6, rows[0]?.[names.indexOf("time_us")]);
  const steps = time.slice(1).map((at, n) => at - (time[n] ?? 0));
  return {
    time,
    rate: { roll: column("gyro_x_dps", DEG), pitch: column("gyro_y_dps", DEG), yaw: column("gyro_z_dps", DEG) },
    command: { roll: null, pitch: null, yaw: null },
    duty: MOTORS.map((name) => column(name, 1 / 65535)),
    throttle: null,
    voltage: null,
    rotorSpeed: MOTORS.map(() => null),
    stretches: [{ from: 0, to: rows.length }],
    step: steps.sort()[steps.length >> 1] ?? 0,
    remarks: [],
  };
}

export const LOGS = { moves: readLog("nano-quad-roll-pitch.csv"), climbs: readLog("nano-quad-throttle.csv") };

const model = readAirframe(`${FLIGHTS}nano-quad-r1.yaml`).value;
const MIXER = mixerOf(model.rotors, model.centreOfMass);

export type TiltAxis = "roll" | "pitch";
export const TILT_AXES: readonly TiltAxis[] = ["roll", "pitch"];

export interface Identified {
  readonly response: ResponseEstimate;
  readonly shape: ShapeFit;
}

export function identified(log: FlightLog, axis: TiltAxis, apart: TimeRange | null = null): Identified | null {
  const response = measuredResponse(log, MIXER, axis, { apart })[0];
  const shape = response === undefined ? null : shapeOf(response);
  return response === undefined || shape === null ? null : { response, shape };
}

const found = new Map<TiltAxis, ShapeFit>();

/** Of the log of strong moves, whole. */
export function shapeOfMoves(axis: TiltAxis): ShapeFit {
  const shape = found.get(axis) ?? identified(LOGS.moves, axis)?.shape;
  if (shape === undefined) throw new Error(`the log tells nothing of ${axis}`);
  found.set(axis, shape);
  return shape;
}

/** Seconds that are kept out and predicted. */
const KEPT_OUT: TimeRange = { from: 6.5, to: 11.5 };

/** Share of the variance within 1.5 to 30 Hz of those seconds that the shape of the others predicts. */
export function explained(axis: TiltAxis): number {
  const shape = identified(LOGS.moves, axis, KEPT_OUT)?.shape;
  const prediction = shape && predicted(LOGS.moves, MIXER, axis, KEPT_OUT, shapeResponse(shape));
  return prediction?.explained ?? 0;
}

/** Reference identification (test/fixtures/flights/README.md). SI. */
export const REFERENCE = {
  roll: { authority: 1394, lag: 0.0625, delay: 0.008, ratio: 22300 },
  pitch: { authority: 1313, lag: 0.0625, delay: 0.0075, ratio: 21000 },
} as const;

/** 4 x 28 mm x dT/du / I of the published thrust curve and inertia at the duty of hover, rad/s^2 per whole command. */
export const published = (axis: TiltAxis): number =>
  (4 * 0.028 * (-0.0112 + 2 * 0.1201 * 0.66)) / { roll: 1.03e-5, pitch: 1.11e-5 }[axis];

/** Largest stable P (%/(100 deg/s)) at a D (%/(1000 deg/s^2)), controller without filters; null where none is. */
export function largestP(axis: TiltAxis, d: number): number | null {
  const { authority, lag, delay } = shapeOfMoves(axis);
  const plant = allPole([0, 1 / authority.middle, lag.middle / authority.middle], delay.middle);
  const stable = stableIntervals(continuousLoop(plant, 40), d / 100 / (1000 * DEG), 0, { from: 0, to: 10 });
  const last = stable.at(-1);
  return last === undefined ? null : last.to * 100 * (100 * DEG);
}
