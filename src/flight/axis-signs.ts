// Which axis each rate column answers, and with which sign: what the duties ask of each axis, passed through the model's lag and
// integrated, against what the sensor says, both without what is slower than half a second. A loop holds itself by pushing
// against what it feels, and the push comes before the answer, so cause and effect keep their sign in a closed loop too: the
// integral of a push against a rate lies a quarter turn from it, and the motors' lag turns it towards the push.
import { Matrix, solve } from "ml-matrix";
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { mixerOf } from "../airframe/mixer.js";
import { speedTimeConstant } from "../airframe/motor.js";
import { levelAt } from "../airframe/powered.js";
import { at, numberAt } from "../base/at.js";
import { allDuties, commandAt, commandShares } from "./axis-commands.js";
import { type FlightLog, LOG_AXES, type LogAxis } from "./log.js";

export interface AxisAnswer {
  /** What the flight file calls the column. */
  readonly axis: LogAxis;
  /** Which command it answers most. */
  readonly answers: LogAxis;
  readonly sign: 1 | -1;
  /** Part of the column's movement that this command explains beside the others, as a correlation, 0 to 1. */
  readonly correlation: number;
  /** How the answer compares with what the model says of the command's axis, in size; near 1. */
  readonly strength: number;
}

/** s; slower than this is left out. */
const SLOW = 0.3;
/** s at the start of a stretch, in which the filters settle. */
const SETTLING = 4 * SLOW;
/** A correlation is clear from here on, and where it is this many times its own standard deviation. */
const CLEAR = 0.4;
const DEVIATIONS = 4;
/** Independent values a second of a signal of a few Hz. */
const INDEPENDENT = 4;
/** An axis answers another command where that explains it so many times as well as its own. */
const INSTEAD = 2;

/** One for each rate column whose answer is clear; none where a motor column is missing. */
export function axisSigns(log: Omit<FlightLog, "remarks">, model: Airframe): AxisAnswer[] {
  const sums = summed(log, model);
  if (sums === null || sums.seconds === 0) return [];
  const { forced, cross, moved, seconds } = sums;
  const size = (matrix: number[][], k: number): number => at(at(matrix, k), k);
  const strongest = Math.max(...LOG_AXES.map((_, k) => size(forced, k)));
  // a trace on the diagonal: a command that never moved is told nothing of, instead of making the equations singular
  const regular = Matrix.add(new Matrix(forced), Matrix.eye(3, 3, 1e-9 * strongest + Number.MIN_VALUE));
  const gains = solve(regular, new Matrix(cross));
  const least = Math.max(CLEAR, DEVIATIONS / Math.sqrt(INDEPENDENT * seconds));
  return LOG_AXES.flatMap((axis, b): AxisAnswer[] => {
    const movement = at(moved, b);
    if (log.rate[axis] === null || !(movement > 0)) return [];
    const correlations = LOG_AXES.map((_, a) => gains.get(a, b) * Math.sqrt(size(forced, a) / movement));
    const own = Math.abs(at(correlations, b));
    const most = Math.max(...correlations.map(Math.abs));
    const a = most > INSTEAD * own ? correlations.findIndex((one) => Math.abs(one) === most) : b;
    const correlation = at(correlations, a);
    if (!(Math.abs(correlation) >= least)) return [];
    const sign = correlation > 0 ? 1 : -1;
    const strength = Math.abs(gains.get(a, b));
    return [{ axis, answers: at(LOG_AXES, a), sign, correlation: Math.min(1, Math.abs(correlation)), strength }];
  });
}

interface Sums {
  /** Products of what the commands should bring, rad^2/s^2; with the rates; of the rates. */
  readonly forced: number[][];
  readonly cross: number[][];
  readonly moved: number[];
  readonly seconds: number;
}

function summed(log: Omit<FlightLog, "remarks">, model: Airframe): Sums | null {
  const duties = allDuties(log);
  if (duties === null) return null;
  const shares = LOG_AXES.map((axis) => commandShares(mixerOf(model.rotors, model.centreOfMass), axis));
  const rates = LOG_AXES.map((axis) => log.rate[axis]);
  const { authority, lag } = pushes(model, meanOf(duties));
  const zero = () => LOG_AXES.map(() => 0);
  const sums = { forced: LOG_AXES.map(zero), cross: LOG_AXES.map(zero), moved: zero(), seconds: 0 };
  for (const { from, to } of log.stretches) {
    const expected = LOG_AXES.map((_, k) => new Answer(at(authority, k), lag));
    const sensed = LOG_AXES.map(() => new HighPass(2));
    let before = numberAt(log.time, from);
    const begin = before;
    for (let row = from; row < to; row++) {
      const commands = shares.map((share) => commandAt(duties, share, row));
      const values = rates.map((rate) => (rate === null ? 0 : numberAt(rate, row)));
      if ([...commands, ...values].some(Number.isNaN)) continue;
      const step = numberAt(log.time, row) - before;
      before = numberAt(log.time, row);
      const x = expected.map((one, k) => one.next(at(commands, k), step));
      const y = sensed.map((one, k) => one.next(at(values, k), step));
      if (before - begin < SETTLING) continue;
      sums.seconds += step;
      for (let a = 0; a < 3; a++) {
        for (let b = 0; b < 3; b++) {
          at(sums.forced, a)[b] = at(at(sums.forced, a), b) + at(x, a) * at(x, b);
          at(sums.cross, a)[b] = at(at(sums.cross, a), b) + at(x, a) * at(y, b);
        }
        sums.moved[a] = at(sums.moved, a) + at(y, a) * at(y, a);
      }
    }
  }
  return sums;
}

/** What a command should bring about: a lag, then the body's integral, without what is slow. */
class Answer {
  #lagged: number | null = null;
  #rate = 0;
  readonly #rest = new HighPass(1);

  constructor(
    readonly authority: number,
    readonly lag: number,
  ) {}

  next(command: number, step: number): number {
    this.#lagged ??= command;
    this.#lagged += ((command - this.#lagged) * step) / (this.lag + step);
    // an integrator and a high-pass of the same corner make one low-pass
    this.#rate += ((this.authority * this.#lagged * SLOW - this.#rate) * step) / (SLOW + step);
    return this.#rest.next(this.#rate, step);
  }
}

/** What is quicker than `SLOW`, by stages of the first order. */
class HighPass {
  readonly #slow: (number | null)[];

  constructor(stages: number) {
    this.#slow = new Array<number | null>(stages).fill(null);
  }

  next(value: number, step: number): number {
    let rest = value;
    for (let stage = 0; stage < this.#slow.length; stage++) {
      const slow = this.#slow[stage] ?? rest;
      const now = slow + ((rest - slow) * step) / (SLOW + step);
      this.#slow[stage] = now;
      rest -= now;
    }
    return rest;
  }
}

/** rad/s^2 per unit of each axis command, and the lag (s) of motors and loop, by the model with all rotors at one duty. */
function pushes(model: Airframe, duty: number): { readonly authority: readonly number[]; readonly lag: number } {
  const craft = craftUnder(model, STANDARD_DAY);
  const level = Math.min(0.95, Math.max(0.05, duty));
  const { speed } = levelAt(craft, level);
  const slope = (levelAt(craft, level + 0.01).speed - levelAt(craft, level - 0.01).speed) / 0.02;
  const lag = speedTimeConstant(model.motor, craft.rotorInertia, craft.torqueStatic, speed);
  return { authority: authorities(craft, 2 * speed * slope), lag: lag + model.controller.latency };
}

/** `squares`: change of a rotor's speed squared per unit of duty. */
function authorities({ arms, spins, mixer, inertia, thrustStatic, torqueStatic }: Craft, squares: number): number[] {
  const sum = (of: (rotor: number) => number): number => arms.reduce((all, _, rotor) => all + of(rotor), 0);
  return [
    (sum((rotor) => at(arms, rotor)[1] * at(mixer.roll, rotor)) * thrustStatic * squares) / inertia.xx,
    (sum((rotor) => -at(arms, rotor)[0] * at(mixer.pitch, rotor)) * thrustStatic * squares) / inertia.yy,
    (sum((rotor) => -at(spins, rotor) * at(mixer.yaw, rotor)) * torqueStatic * squares) / inertia.zz,
  ];
}

/** Mean of all duties that are numbers. */
function meanOf(duties: readonly Float64Array[]): number {
  let [sum, count] = [0, 0];
  for (const duty of duties)
    for (const value of duty)
      if (!Number.isNaN(value)) {
        sum += value;
        count++;
      }
  return count === 0 ? Number.NaN : sum / count;
}
