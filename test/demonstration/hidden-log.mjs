// The hidden craft's twelve seconds over the meadow: stops from rolls and pitches at several throttles, turns about yaw, a
// climb, and a descent through its own wake as it follows from the throttle; what the logger writes of them.
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../dist/airframe/craft.js";
import { hoverInducedVelocity } from "../../dist/airframe/rotor.js";
import { hoverTrim, trimAt } from "../../dist/airframe/trim.js";
import { GAINS, hiddenCraft } from "./hidden-craft.mjs";
import { simulateLog } from "./simulate-log.mjs";

const DEGREE = Math.PI / 180;
const SECONDS = 12;
const CHARGE = 0.95;
/** Of 4000 control periods a second: 500 rows. */
const EVERY = 8;
const FULL = 65_535;

/** A turn one way, a stop, the same back: 0.66 s. */
const thereAndBack = (start, peak) =>
  [
    [0, 0],
    [0.03, 1],
    [0.15, 1],
    [0.17, 0],
    [0.34, 0],
    [0.37, -1],
    [0.49, -1],
    [0.51, 0],
  ].map(([t, share]) => [start + t, share * peak * DEGREE]);
const several = (starts, peak) => starts.flatMap((start, k) => thereAndBack(start, k % 2 === 0 ? peak : -peak));

const COMMAND = {
  roll: several([0.3, 1.5, 2.7, 4.2, 5.4, 8.6, 9.9, 11], 260),
  pitch: several([0.9, 2.1, 3.4, 4.8, 9.2, 10.5], -220),
  yaw: several([3.9, 8], 120),
};

/** Duty beside hover, and for how long: so many seconds, or until the craft neither climbs nor sinks, or until its wake is at its worst. */
const PHASES = [
  { duty: 0, seconds: 2.3 },
  { duty: 0.13, seconds: 1 },
  { duty: -0.09, until: "level" },
  { duty: 0, seconds: 0.5 },
  { duty: -0.13, until: "in its wake" },
  { duty: 0, seconds: 1.4 },
  { duty: 0.13, until: "level" },
  { duty: 0, seconds: SECONDS },
];
const WORST = 1.25; // descent over induced velocity
const STEP = 0.05; // s
const RAMP = 2; // steps from one duty to the next

/** Throttle of the phases, and the descent (over the hover's induced velocity) that follows from it: thrust against weight, summed. */
function verticalMotion(airframe) {
  const craft = craftUnder(airframe, { ...STANDARD_DAY, charge: CHARGE });
  const hover = hoverTrim(craft);
  const weight = craft.mass * GRAVITY;
  const induced = hoverInducedVelocity(weight / craft.arms.length, airframe.propeller.diameter, craft.density);
  const lift = (duty) =>
    trimAt(craft, hover.throttle + duty).speeds.reduce((sum, w) => sum + craft.thrustStatic * w * w, 0) / weight;
  const throttle = [[0, 0]];
  const descent = [[0, 0]];
  let [k, duty, sinking] = [0, 0, 0];
  for (const phase of PHASES) {
    const [first, before, way] = [k, duty, Math.sign(sinking)];
    const isOver = () => {
      if (phase.seconds !== undefined) return (k - first) * STEP >= phase.seconds;
      return phase.until === "level" ? sinking * way <= 0 : sinking >= WORST * induced;
    };
    while (!isOver() && k * STEP < SECONDS) {
      k++;
      duty = before + (phase.duty - before) * Math.min(1, (k - first) / RAMP);
      sinking += STEP * GRAVITY * (1 - lift(duty));
      throttle.push([k * STEP, duty]);
      descent.push([k * STEP, Math.max(0, sinking) / induced]);
    }
  }
  return { throttle, descent };
}

/** See hidden-log.d.mts. */
export function hiddenLog(airframe = hiddenCraft()) {
  const { scale } = airframe.controller;
  const acting = ({ p, i, d }, one) => ({ p: p * one.p, i: i * one.i, d: d * (one.d ?? 0) });
  return simulateLog(airframe, {
    seconds: SECONDS,
    gains: { roll: acting(GAINS.roll, scale), pitch: acting(GAINS.pitch, scale), yaw: acting(GAINS.yaw, scale.yaw) },
    command: COMMAND,
    ...verticalMotion(airframe),
    seed: 20_260_514,
    charge: CHARGE,
    every: EVERY,
  });
}

/** The same as the logger stores it: microseconds, tenths of a degree per second, duties as 16 bits, millivolts. */
export function hiddenLogText() {
  const log = hiddenLog();
  const columns = [
    ["time_us", (k) => (1e6 * log.time[k]).toFixed(0)],
    ...["x", "y", "z"].map((name, a) => [`gyro_${name}`, (k) => tenth(log.rate[a][k] / DEGREE)]),
    ...["roll", "pitch", "yaw"].map((name, a) => [`stick_${name}`, (k) => tenth(log.command[a][k] / DEGREE)]),
    ...log.duty.map((duty, i) => [`m${i + 1}`, (k) => (FULL * duty[k]).toFixed(0)]),
    ["vbat", (k) => (1000 * log.voltage[k]).toFixed(0)],
  ];
  const rows = Array.from({ length: log.time.length }, (_, k) => columns.map(([, write]) => write(k)).join(","));
  return `${[columns.map(([name]) => name).join(","), ...rows].join("\n")}\n`;
}

const tenth = (value) => String(Number(value.toFixed(1)) + 0);
