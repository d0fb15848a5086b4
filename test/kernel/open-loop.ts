// A short trial without control: throttle in steps, standing axis commands, inflow and gusts. Once by the loop at any
// number of substeps, once by an independent solver on the equations of motion written out anew.
import { Solver } from "odex";
import type { Craft } from "../../src/airframe/craft.js";
import type { Trim } from "../../src/airframe/powered.js";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import { craftMemory, shapeOf } from "../../src/kernel/rig.js";

/** A segment of control periods under constant throttle (fraction), climb (m/s) and rotary gusts (rad/s). */
export interface Segment {
  readonly periods: number;
  readonly throttle: number;
  readonly climb: number;
  readonly gust: readonly [roll: number, pitch: number];
}

export interface OpenLoopTrial {
  readonly craft: Craft;
  readonly start: Trim;
  readonly commands: readonly [roll: number, pitch: number, yaw: number];
  readonly segments: readonly Segment[];
}

/** Rotor speeds, then body rates, at the end of each segment, by the loop. */
export function byLoop({ craft, start, commands, segments }: OpenLoopTrial, substeps: number): number[][] {
  const shape = { ...shapeOf(craft), substeps, olderSteps: substeps, delaySteps: 0 };
  const state = new Float64Array(m.stateLength(shape));
  state.set(commands, m.INTEGRAL);
  state[m.SERVED] = 1;
  const speeds = m.STATE_SIZE;
  state.set([...start.speeds, ...start.speeds], speeds);
  const memory = craftMemory(craft, shape);
  const counts = m.countsOf(shape);
  return segments.map((segment) => {
    const drive = driveOf(segment, shape);
    advance(memory, drive, state, new Float64Array(segment.periods), ...counts, 0, 1, 0, 0, segment.periods);
    return [...state.subarray(speeds, speeds + shape.rotors), ...state.subarray(m.BODY_RATE, m.BODY_RATE + 3)];
  });
}

function driveOf({ periods, throttle, climb, gust }: Segment, shape: m.Shape): Float64Array {
  const width = m.driveWidth(shape);
  const drive = new Float64Array(periods * width);
  for (let k = 0; k < periods; k++) {
    drive.fill(1, k * width + m.THRUST_SHARE, (k + 1) * width);
    drive[k * width + m.THROTTLE] = throttle;
    drive[k * width + m.CLIMB] = climb;
    drive.set(gust, k * width + m.GUST_ROLL);
  }
  return drive;
}

/** The same by extrapolation (Gragg-Bulirsch-Stoer) to 12 digits. */
export function bySolver(trial: OpenLoopTrial): number[][] {
  const { craft, start, segments } = trial;
  let states = [...start.speeds, 0, 0, 0];
  return segments.map((segment) => {
    const solver = new Solver(states.length);
    solver.absoluteTolerance = 1e-11;
    solver.relativeTolerance = 1e-12;
    const until = segment.periods / craft.airframe.controller.rate;
    states = solver.solve((_, x) => motion(trial, segment, x), 0, states, until).y;
    return states;
  });
}

/** Newton, Euler and Kirchhoff: the derivatives of rotor speeds and body rates. */
export function motion(
  { craft, commands }: Pick<OpenLoopTrial, "craft" | "commands">,
  segment: Segment,
  x: readonly number[],
): number[] {
  const { mixer, arms, spins, rotorInertia } = craft;
  const { motor } = craft.airframe;
  const count = arms.length;
  const speeds = x.slice(0, count);
  const [p, q, r] = x.slice(count);
  const duties = arms.map(
    (_, i) =>
      segment.throttle + mixer.roll[i] * commands[0] + mixer.pitch[i] * commands[1] + mixer.yaw[i] * commands[2],
  );
  const currents = currentsOf(craft, duties, speeds);
  const inflows = arms.map(([ax, ay]) => segment.climb + (p + segment.gust[0]) * ay - (q + segment.gust[1]) * ax);
  const loads = speeds.map((w, i) => craft.torqueStatic * w * w + craft.torqueInflow * inflows[i] * w);
  const thrusts = speeds.map((w, i) => craft.thrustStatic * w * w - craft.thrustInflow * inflows[i] * w);
  const sum = (of: (i: number) => number) => arms.reduce((total, _, i) => total + of(i), 0);
  const torque = [
    sum((i) => arms[i][1] * thrusts[i]),
    sum((i) => -arms[i][0] * thrusts[i]),
    sum((i) => -spins[i] * motor.constant * (currents[i] - motor.noLoadCurrent)),
  ];
  const momentum = turned(craft, [p, q, r]);
  momentum[2] += rotorInertia * sum((i) => spins[i] * speeds[i]);
  const rest = torque.map((t, k) => t - cross([p, q, r], momentum)[k]);
  return [
    ...speeds.map((_, i) => (motor.constant * (currents[i] - motor.noLoadCurrent) - loads[i]) / rotorInertia),
    ...accelerations(craft, rest),
  ];
}

/** Motor currents with the pack's voltage found by repetition: V = E - R sum(u i), i = (u V - K w)/R. */
function currentsOf(craft: Craft, duties: readonly number[], speeds: readonly number[]): number[] {
  const { motor, pack } = craft.airframe;
  const at = (volts: number) => duties.map((u, i) => (u * volts - motor.constant * speeds[i]) / motor.resistance);
  let volts = craft.emf;
  for (let round = 0; round < 100; round++) {
    const next = craft.emf - pack.resistance * at(volts).reduce((total, i, k) => total + duties[k] * i, 0);
    if (next === volts) break;
    volts = 0.5 * (volts + next);
  }
  return at(volts);
}

function turned({ inertia }: Craft, [p, q, r]: readonly number[]): number[] {
  const { xx, yy, zz, xy, xz, yz } = inertia;
  return [xx * p + xy * q + xz * r, xy * p + yy * q + yz * r, xz * p + yz * q + zz * r];
}

const cross = (a: readonly number[], b: readonly number[]): number[] => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Inertia times acceleration equals torque, by Cramer's rule on its columns. */
function accelerations(craft: Craft, torque: readonly number[]): number[] {
  const [a, b, c] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ].map((unit) => turned(craft, unit));
  const dot = (u: readonly number[], v: readonly number[]) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
  const volume = dot(a, cross(b, c));
  return [dot(torque, cross(b, c)) / volume, dot(a, cross(torque, c)) / volume, dot(a, cross(b, torque)) / volume];
}
