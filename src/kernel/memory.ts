// The layout of the kernel's memory. Three flat arrays of doubles, so that the same
// description runs as plain JavaScript and as vector code: what every lane shares (craft, drive)
// and what each lane owns (state).
import type { TestedAxis } from "../sweep/sweep.js";

/** Uniform numbers of one craft under one condition, SI. Rotor and filter tables follow at CRAFT_SIZE. */
export const SUBSTEP = 0; // physics step, s
export const IDLE = 1; // lowest duty, fraction
export const DUTY_SPAN = 2; // 1 - IDLE
export const YAW_ROOM = 3; // 1 / (spread of the mixer's yaw column)
export const INTEGRAL_LIMIT = 4; // largest integral share of a command, fraction
export const PACK_EMF = 5; // open-circuit voltage, V
export const PACK_RATIO = 6; // pack resistance / motor resistance
export const MOTOR_CONSTANT = 7; // Kt = Ke, N m/A
export const CONDUCTANCE = 8; // 1 / motor resistance, 1/ohm
export const TORQUE_TO_SPEED = 9; // Kt / rotor inertia, (rad/s^2)/A
export const FRICTION = 10; // Kt i0 / rotor inertia, rad/s^2
export const LOAD_STATIC = 11; // kQ / rotor inertia, 1
export const LOAD_INFLOW = 12; // load's growth with the thrustless speed / rotor inertia, 1
export const ROTOR_INERTIA = 13; // kg m^2
export const THRUST_STATIC = 14; // kT, N s^2
export const ZERO_THRUST_SLOPE = 15; // rad/s per m/s: thrustless speed, at which a rotor merely screws through the inflow
export const INERTIA = 16; // 6: xx, yy, zz, xy, xz, yz as matrix entries, kg m^2
export const MOBILITY = 22; // 6: the inverse, same order, 1/(kg m^2)
export const BEARING_TORQUE = 28; // no-load torque summed by spin: it stays between bells and stators, N m
export const NEWER_SHARE = 29; // 2: of the newer command in the physics step in which it takes over, and in those after it
export const SHARE_VARIANCE = 31; // newer share times older share in that step
/** Read by an extended controller alone; one that shapes no duties has a factor of 1, a straight line and no limits. */
export const NOMINAL_VOLTS = 32; // what the pack's voltage is made up to, V
export const VOLTS_SHARE = 33; // low-pass of that voltage: share of the newest, then its pole, negative
export const VOLTS_POLE = 34;
export const DUTY_START = 35; // duty at no command, less what each bend adds below it: its change times its command; fraction
export const DUTY_SLOPE = 36; // duty per command up to the table's first bend
export const DUTY_FLOOR = 37;
export const DUTY_CEILING = 38;
export const CRAFT_SIZE = 39;

/** One rotor's shared numbers. */
export const ARM_X = 0; // m forward of the centre of mass
export const ARM_Y = 1; // m to the left of it
export const SPIN = 2; // +1 counter-clockwise seen from above, -1 clockwise
export const MIX_ROLL = 3;
export const MIX_PITCH = 4;
export const MIX_YAW = 5;
export const ROTOR_WIDTH = 6;

/** One filter stage of order 2 at most, of whatever kind: b0, b1, b2, a1, a2 (a0 = 1). */
export const STAGE_WIDTH = 5;

/** One control period of what is commanded and what the air and the sensor do. */
export const THROTTLE = 0; // collective duty, fraction
export const COMMAND = 1; // 3: commanded rates, rad/s
export const NOISE = 4; // 3: sensor error, rad/s
export const CLIMB = 7; // axial inflow common to all rotors, m/s
export const GUST_ROLL = 8; // rotary gust about x, rad/s
export const GUST_PITCH = 9; // rotary gust about y, rad/s
export const THRUST_SHARE = 10; // one per rotor: thrust multiplier of disturbed air
export const DRIVE_BASE = 10;
/** Behind the rotors' shares, where the controller is extended; an absent feature is neutral: 1 as factor, -0 as addend. */
export const FACTORS = 0; // 3: what P, I and D of all axes are multiplied by at this period's throttle
export const FEED_FORWARD = 3; // 3: share of a command that the commanded rate and its slope make, fraction
export const EXTENSION = 6;
/** Behind that, for the gyro's chain and then for D's, each stage that moves, a state-variable filter (stages.ts). */
export const BAND_BY_GAP = 0; // its first memory at mid-period: share of what the input differs by from the second,
export const BAND_LEFT = 1; // and share of what it was; 0 of a stage of order 1, which has no use for it
export const TUNING = 2; // half change of the second memory per value of the first
export const OUTSIDE = 3; // what a notch lets pass above its centre, per half change of the first memory; 0 of a low-pass
export const MOVING_WIDTH = 4;

/** What one lane owns. Rotor speeds, filter memories and the delay line follow at STATE_SIZE. */
export const BODY_RATE = 0; // 3: rad/s
export const HALF_STEP_DELTA = 3; // 3: half a step's change of body rate, of the step before, rad/s
export const INTEGRAL = 6; // 3: integral share of the command, fraction
export const FILTERED = 9; // 3: filtered rate of the step before, rad/s
export const P_GAIN = 12; // 3: fraction per (rad/s)
export const I_GAIN = 15; // 3: fraction per rad, times the control period
export const D_GAIN = 18; // 3: fraction per (rad/s^2), divided by the control period
export const AXIS_COMMAND = 21; // 3: roll, pitch, yaw command, fraction; within a control period
export const SERVED = 24; // 1 where the mixer served the whole torque demand, else 0
export const SERVED_SUM = 25; // control periods in which it was; of a trial of yaw, in which yaw was served as well
export const FASTEST = 26; // largest square in the trace, (rad/s)^2; NaN where the last rate is NaN
export const HEAT = 27; // sum over physics steps and rotors of current squared, A^2; this and the next two while accumulating
export const COMMAND_SUM = 28; // of the traced axis
export const COMMAND_SQUARES = 29;
export const GYRO_RATE = 30; // 3: what the gyro's chain makes of each rate, rad/s; this and the next within a control period
export const SLOPE = 33; // 2: what D's chain makes of the change of roll's and pitch's, rad/s
export const PACK_VOLTS = 35; // at the last physics step, V; this and the next where the controller is extended
export const VOLTS_MEMORY = 36; // of its low-pass, V
export const STATE_SIZE = 37;

/** Place of an axis wherever one number for each of the three stands. */
export const axisPlace = (axis: TestedAxis): AxisPlace => AXIS_PLACES[axis];
export type AxisPlace = 0 | 1 | 2;
const AXIS_PLACES: Readonly<Record<TestedAxis, AxisPlace>> = Object.freeze({ roll: 0, pitch: 1, yaw: 2 });

/** The counts that fix the layout; every index below is in doubles. */
export interface Shape {
  readonly rotors: number;
  readonly sensorStages: number;
  readonly derivativeStages: number;
  /** Inner rows of the table from command to duty; 0 unless the controller is extended, as the next two. */
  readonly dutyBends: number;
  /** Stages that move, behind the others of their chain. */
  readonly movingSensorStages: number;
  readonly movingDerivativeStages: number;
  /** Control periods by which the older of two commands is late. */
  readonly delaySteps: number;
  readonly substeps: number;
  /** Physics steps of a period wholly under the older command: all where the latency is whole periods. */
  readonly olderSteps: number;
  /** 1 where the controller is more than fixed gains and fixed filters. */
  readonly extended: 0 | 1;
  /** 0 for a mirrored craft whose other axis is held without D, as most are: terms that are zero are left out. 1: all terms. */
  readonly coupled: 0 | 1;
}

/** What stands from NEWER_SHARE on, where the newer command has this share of the step in which it takes over. */
export const takeoverCells = (newerShare: number) => [newerShare, 1, newerShare * (1 - newerShare)] as const;

/** The shape as the loop takes it. */
export const countsOf = ({
  rotors,
  sensorStages,
  derivativeStages,
  dutyBends,
  movingSensorStages,
  movingDerivativeStages,
  delaySteps,
  substeps,
  olderSteps,
  extended,
  coupled,
}: Shape) =>
  [
    rotors,
    sensorStages,
    derivativeStages,
    dutyBends,
    movingSensorStages,
    movingDerivativeStages,
    delaySteps,
    substeps,
    olderSteps,
    extended,
    coupled,
  ] as const;

export const craftLength = (s: Shape): number => dutyTableAt(s) + 2 * s.dutyBends;

/** Bends of the table from command to duty: where each is and how much steeper it goes on. */
export const dutyTableAt = (s: Shape): number =>
  CRAFT_SIZE + s.rotors * ROTOR_WIDTH + (s.sensorStages + s.derivativeStages) * STAGE_WIDTH;

export const driveWidth = (s: Shape): number =>
  extensionAt(s) + s.extended * (EXTENSION + (s.movingSensorStages + s.movingDerivativeStages) * MOVING_WIDTH);

/** Within a control period's drive: where FACTORS and all behind them begin. */
export const extensionAt = (s: Shape): number => DRIVE_BASE + s.rotors;

/** State: scalars; per rotor its speed, the speed foreseen for mid-step and, within a control period, the duty demanded
 * of it; filter memories (two numbers per axis and stage; yaw has no derivative); the delay line. What depends on other counts
 * than the rotors' comes last: the vector kernel addresses all before it at build time. */
export const stateLength = (s: Shape): number => delayLineAt(s) + s.rotors * (1 + s.delaySteps);

export const delayLineAt = (s: Shape): number =>
  STATE_SIZE +
  3 * s.rotors +
  6 * (s.sensorStages + s.movingSensorStages) +
  4 * (s.derivativeStages + s.movingDerivativeStages);
