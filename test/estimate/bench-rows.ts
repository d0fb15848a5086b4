// Bench tables of a known motor and propeller, as a bench with errors of its own would write them.
import { steadySpeed } from "../../src/airframe/motor.js";
import { boxMuller, stream, uniform } from "../../src/base/random.js";
import { METERS } from "../../src/estimate/bench.js";
import type { BenchRow, BenchTable } from "../../src/estimate/bench-table.js";

export interface Truth {
  readonly kv: number; // rpm/V
  readonly resistance: number; // ohm
  readonly noLoadCurrent: number; // A
  readonly ct: number;
  readonly cp: number;
  readonly diameter: number; // m
}

const TURN = 2 * Math.PI;

/** The truth's kT and kQ at 1.225 kg/m^3, per (rad/s)^2. */
const loadOf = ({ ct, cp, diameter }: Truth) => ({
  kT: (ct * 1.225 * diameter ** 4) / TURN ** 2,
  kQ: (cp * 1.225 * diameter ** 5) / TURN ** 3,
});

/** One steady row at a throttle and a supply. */
function rowOf(truth: Truth, throttle: number, volts: number): Required<BenchRow> {
  const { kT, kQ } = loadOf(truth);
  const constant = 60 / (TURN * truth.kv);
  const { resistance, noLoadCurrent } = truth;
  const motor = { constant, resistance, noLoadCurrent, bellInertia: 1e-6 };
  const speed = steadySpeed(throttle * volts, motor, kQ);
  const current = (throttle * volts - constant * speed) / resistance;
  return { throttle, volts, speed, current: throttle * current, thrust: kT * speed ** 2, torque: kQ * speed ** 2 };
}

export interface Meters {
  /** Scatter of each reading, a share. */
  readonly scatter: number;
  /** Whether each meter is off by a share of its own, as METERS allows, for the whole table. */
  readonly off: boolean;
  readonly torque: boolean;
}

/** A table of twelve throttles, from 20 to 100 %. */
export function noisyTable(truth: Truth, seed: number, { scatter, off, torque }: Meters): BenchTable {
  const random = stream("bench test", seed);
  const draw = () => boxMuller(1 - uniform(random), uniform(random))[0];
  const scale = Object.fromEntries(
    Object.entries(METERS).map(([key, share]) => [key, off ? 1 + (share / 2) * draw() : 1]),
  );
  const rows = Array.from({ length: 12 }, (_, at) => {
    const { throttle, ...row } = rowOf(truth, 0.2 + (0.8 * at) / 11, 16 - 0.1 * at);
    const read = Object.entries(row).map(([key, value]) => {
      const air = key === "thrust" || key === "torque" ? (scale.air ?? 1) : 1;
      // speed is counted, with a tenth of the others' scatter
      return [key, value * (scale[key] ?? 1) * air * (1 + scatter * (key === "speed" ? 0.1 : 1) * draw())];
    });
    const { torque: twist, ...others } = Object.fromEntries(read) as Required<BenchRow>;
    return { ...others, throttle, ...(torque ? { torque: twist } : {}) };
  });
  return { rows, unused: [] };
}
