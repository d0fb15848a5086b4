// A flight by a simulator that is not ours: Newton, Euler and Kirchhoff's equations written out anew (test/kernel/open-loop.ts),
// solved by odex's extrapolation. Nobody controls it: roll and pitch are driven by sums of sines, gusts push, the sensor hisses.
import { Solver } from "odex";
import type { Airframe } from "../../src/airframe/airframe.js";
import { craftUnder, STANDARD_DAY } from "../../src/airframe/craft.js";
import type { Mixer } from "../../src/airframe/mixer.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { fillGaussian, stream, uniform } from "../../src/base/random.js";
import type { FlightLog } from "../../src/flight/log.js";
import { motion } from "../kernel/open-loop.js";

export interface SolvedFlight {
  readonly seconds: number;
  readonly seed: number;
  readonly charge: number;
}

const STEP = 0.004; // s, of the log
const SINES = { count: 40, lowest: 1.5, highest: 45 }; // Hz
const COMMAND = 0.03; // rms of a command
const GUSTS = { every: 0.05, rms: 20 }; // s, rad/s^2: the torque of turbulence, over the inertia
const NOISE = 0.004; // rad/s a row

/** `mixer`: of the model as it is written. Commands act after the latency, and half a control period later for being held. */
export function solvedFlight(airframe: Airframe, mixer: Mixer, { seconds, seed, charge }: SolvedFlight): FlightLog {
  const craft = { ...craftUnder(airframe, { ...STANDARD_DAY, charge }), mixer };
  const hover = hoverTrim(craft);
  if (hover === null) throw new Error("the drawn craft cannot hover");
  const late = airframe.controller.latency + 0.5 / airframe.controller.rate;
  const [roll, pitch] = (["roll", "pitch"] as const).map((axis) => sines(seed, axis));
  const commandsAt = (t: number): [number, number, number] => [
    hover.commands[0] + roll(t),
    hover.commands[1] + pitch(t),
    hover.commands[2],
  ];
  const gusts = ["roll", "pitch"].map((axis) => normals(Math.ceil(seconds / GUSTS.every) + 2, "gust", seed, axis));
  const rows = Math.floor(seconds / STEP);
  const noise = ["roll", "pitch", "yaw"].map((axis) => normals(rows, "noise", seed, axis));
  const rates = noise.map(() => new Float64Array(rows));
  const count = craft.arms.length;
  let states = [...hover.speeds, 0, 0, 0];
  const segment = { periods: 0, throttle: hover.throttle, climb: 0, gust: [0, 0] as const };
  for (let row = 0; row < rows; row++) {
    for (const [a, rate] of rates.entries()) rate[row] = states[count + a] + NOISE * noise[a][row];
    const [from, to] = [row * STEP, (row + 1) * STEP];
    const solver = new Solver(states.length);
    solver.absoluteTolerance = 1e-6;
    solver.relativeTolerance = 1e-6;
    states = solver.solve(
      (t, x) => {
        const slopes = motion({ craft, commands: commandsAt(t - late) }, segment, x);
        for (const [a, gust] of gusts.entries()) slopes[count + a] += GUSTS.rms * along(gust, t / GUSTS.every);
        return slopes;
      },
      from,
      states,
      to,
    ).y;
  }
  const duty = craft.arms.map((_, i) =>
    Float64Array.from({ length: rows }, (__, row) => {
      const [r, p, y] = commandsAt(row * STEP);
      return hover.throttle + mixer.roll[i] * r + mixer.pitch[i] * p + mixer.yaw[i] * y;
    }),
  );
  const [rollRate, pitchRate, yawRate] = rates;
  // What is asked of the axes and knows nothing of gusts: the instrument.
  const asked = (command: (t: number) => number) =>
    Float64Array.from({ length: rows }, (_, row) => command(row * STEP));
  return {
    time: Float64Array.from({ length: rows }, (_, row) => row * STEP),
    rate: { roll: rollRate, pitch: pitchRate, yaw: yawRate },
    command: { roll: asked(roll), pitch: asked(pitch), yaw: null },
    duty,
    throttle: null,
    voltage: null,
    rotorSpeed: duty.map(() => null),
    stretches: [{ from: 0, to: rows }],
    step: STEP,
    remarks: [],
  };
}

function normals(count: number, ...keys: (number | string)[]): Float64Array {
  const values = new Float64Array(count);
  fillGaussian(values, stream(...keys));
  return values;
}

/** Straight lines between values. */
function along(values: Float64Array, place: number): number {
  const k = Math.floor(place);
  return values[k] + (place - k) * (values[k + 1] - values[k]);
}

function sines(seed: number, axis: string): (t: number) => number {
  const source = stream("sines", seed, axis);
  const { count, lowest, highest } = SINES;
  const each = Array.from({ length: count }, (_, k) => ({
    w: 2 * Math.PI * (lowest + ((highest - lowest) * (k + uniform(source))) / count),
    phase: 2 * Math.PI * uniform(source),
  }));
  const size = COMMAND * Math.sqrt(2 / count);
  return (t) => each.reduce((sum, { w, phase }) => sum + size * Math.sin(w * t + phase), 0);
}
