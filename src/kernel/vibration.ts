// Vibration lines at multiples of each rotor's speed. No two rotors of a craft turn alike, so their phases wander against
// each other and the sum beats. Each rotor is given a whole number of turns within the window, no two the same one: the
// beats close within it, and what the lines do there depends on no phase.
import { cos, sin } from "../base/elementary.js";
import { stream } from "../base/random.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { SENSOR_ERROR } from "./noise-layout.js";
import type { Schedule } from "./schedule.js";

/** Speeds of neighbouring rotors lie this much apart at least: propellers and motors of one batch, common practice, no source. */
const LEAST_APART = 0.005;
/** And no more than this for the sake of whole turns: a slow rotor makes few of them in a window. */
const MOST_APART = 0.02;

/** Adds the lines of every rotor to the sensor's error about each axis. */
export function vibrationInto(
  values: Float64Array,
  width: number,
  plan: TrialPlan,
  variant: TrialVariant,
  schedule: Schedule,
  streams: readonly (string | number)[],
): void {
  const { vibration } = plan.airframe.sensing;
  const { hover } = plan.conditions[variant.condition];
  const source = stream(...streams, "vibration");
  const trimmed = variant.trim.speeds.map((speed) => speed / schedule.speed[0]);
  const turning = turningSpeeds(trimmed, turnsIn(variant.script.window, schedule), () => source.next());
  for (const { harmonic, atHover } of vibration) {
    for (const [rotor, ofSchedule] of turning.entries()) {
      const turn = sharedTurn(schedule, harmonic * ofSchedule);
      const atSpeed = trimmed[rotor] / hover.speeds[rotor];
      const phase = () => (source.next() / 4294967296) * 2 * Math.PI;
      lineInto(values, width, schedule, turn, atHover * atSpeed * atSpeed, [phase(), phase(), phase()]);
    }
  }
}

/** Turns of a rotor at the schedule's speed within the window. */
function turnsIn({ from, to }: TrialVariant["script"]["window"], { speed, period }: Schedule): number {
  const within = speed.subarray(Math.round(from / period), Math.round(to / period));
  return (within.reduce((sum, w) => sum + w, 0) * period) / 2 / Math.PI;
}

/**
 * The rotors' speeds over the schedule's: near `trimmed`, in its order, chance decides among equals. Where the window holds
 * so many `turns` of the schedule's rotor that it may be, each makes a whole number of them.
 */
export function turningSpeeds(trimmed: readonly number[], turns: number, chance: () => number): number[] {
  const ranked = trimmed
    .map((speed, rotor) => ({ speed, rotor, lot: chance() }))
    .sort((a, b) => a.speed - b.speed || a.lot - b.lot);
  const closing = turns * MOST_APART >= 1;
  const unit = closing ? 1 / turns : MOST_APART;
  const apart = closing ? Math.max(1, Math.round(LEAST_APART * turns)) : 1;
  let last = Number.NEGATIVE_INFINITY;
  const steps = ranked.map(({ speed }) => {
    last = Math.max(Math.round(speed / unit), last + apart);
    return last;
  });
  // Equals were only pushed up: the mean of the speeds must stay what it was.
  const off = ranked.reduce((sum, { speed }, place) => sum + steps[place] - speed / unit, 0);
  const back = Math.round(off / ranked.length);
  const turning = new Array<number>(trimmed.length);
  for (const [place, { rotor }] of ranked.entries()) turning[rotor] = (steps[place] - back) * unit;
  return turning;
}

/** sin and cos of the angle turned since the start, one of each per control period. */
interface Turn {
  readonly sine: Float64Array;
  readonly cosine: Float64Array;
}

const turns = new WeakMap<Schedule, Map<number, Turn>>();

/** Rotors that turn alike, and other seeds on the same schedule, share a turn. */
function sharedTurn(schedule: Schedule, ofSchedule: number): Turn {
  const ofThis = turns.get(schedule) ?? new Map<number, Turn>();
  turns.set(schedule, ofThis);
  const turn = ofThis.get(ofSchedule) ?? turnOf(schedule, ofSchedule);
  ofThis.set(ofSchedule, turn);
  return turn;
}

/** Control periods at one speed after which sine and cosine are computed anew: in between they are turned on. */
const ANEW = 64;

/** Counted in turns, of which only the fraction counts: no angle is too large for a sine. */
function turnOf({ speed, steps, period }: Schedule, ofSchedule: number): Turn {
  const [sine, cosine] = [new Float64Array(steps), new Float64Array(steps)];
  const perSpeed = (ofSchedule * period) / 2 / Math.PI;
  let turned = 0;
  let steady = { speed: Number.NaN, sine: 0, cosine: 1 };
  for (let k = 0; k < steps; k++) {
    if (k % ANEW !== 0 && speed[k - 1] === steady.speed) {
      sine[k] = sine[k - 1] * steady.cosine + cosine[k - 1] * steady.sine;
      cosine[k] = cosine[k - 1] * steady.cosine - sine[k - 1] * steady.sine;
    } else {
      sine[k] = sin(2 * Math.PI * turned);
      cosine[k] = cos(2 * Math.PI * turned);
    }
    if (k > 0 && speed[k] === speed[k - 1] && speed[k] !== steady.speed) {
      const step = 2 * Math.PI * perSpeed * speed[k];
      steady = { speed: speed[k], sine: sin(step), cosine: cos(step) };
    }
    turned += perSpeed * speed[k];
    turned -= Math.floor(turned);
  }
  return { sine, cosine };
}

/** Adds amplitude speed^2 sin(turn + phase) to the sensor's error about each axis, which has a phase each. */
function lineInto(
  values: Float64Array,
  width: number,
  { speed, steps }: Schedule,
  { sine, cosine }: Turn,
  amplitude: number,
  phases: readonly [roll: number, pitch: number, yaw: number],
): void {
  const [rollBySine, pitchBySine, yawBySine] = phases.map((phase) => amplitude * cos(phase));
  const [rollByCosine, pitchByCosine, yawByCosine] = phases.map((phase) => amplitude * sin(phase));
  // All axes in one round: each alone would read speed and turn from memory again.
  for (let k = 0, now = SENSOR_ERROR; k < steps; k++, now += width) {
    const square = speed[k] * speed[k];
    const [s, c] = [sine[k], cosine[k]];
    values[now] = values[now] + square * (rollBySine * s + rollByCosine * c);
    values[now + 1] = values[now + 1] + square * (pitchBySine * s + pitchByCosine * c);
    values[now + 2] = values[now + 2] + square * (yawBySine * s + yawByCosine * c);
  }
}
