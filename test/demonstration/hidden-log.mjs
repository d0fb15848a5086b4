// The hidden craft's twelve seconds over the meadow: stops from rolls and pitches at several throttles, a turn about yaw, and a
// descent through its own wake that follows from the throttle; what the logger writes of them.
import { craftUnder, GRAVITY, STANDARD_DAY } from "../../dist/airframe/craft.js";
import { hoverInducedVelocity } from "../../dist/airframe/rotor.js";
import { hoverTrim, trimAt } from "../../dist/airframe/trim.js";
import { GAINS, hiddenCraft, UNIT_OF_I } from "./hidden-craft.mjs";
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
  roll: several([0.3, 1.5, 2.7, 4.6, 6.1, 8.6, 10.4], 260),
  pitch: several([0.9, 2.1, 3.3, 5.2, 6.8, 9.2, 11.1], -220),
  yaw: several([4, 9.8], 120),
};

/** Beside hover: climbs, then a descent that is caught again. */
const THROTTLE = [
  [0, 0],
  [2.5, 0],
  [2.6, 0.16],
  [3.9, 0.16],
  [4, -0.06],
  [4.4, -0.06],
  [4.5, 0.1],
  [5.8, 0.1],
  [5.9, 0],
  [6, 0],
  [6.1, -0.12],
  [7.4, -0.12],
  [7.5, 0],
  [8.5, 0],
  [8.6, 0.12],
  [9.8, 0.12],
  [9.9, 0],
  [SECONDS, 0],
];

/** Descent over the hover's induced velocity: thrust against weight, summed from `from` on, until it is caught. */
function descentOf(airframe, from) {
  const craft = craftUnder(airframe, { ...STANDARD_DAY, charge: CHARGE });
  const hover = hoverTrim(craft);
  const weight = craft.mass * GRAVITY;
  const induced = hoverInducedVelocity(weight / craft.arms.length, airframe.propeller.diameter, craft.density);
  const thrust = (duty) => trimAt(craft, duty).speeds.reduce((sum, w) => sum + craft.thrustStatic * w * w, 0);
  const step = 0.1;
  const points = [[from, 0]];
  let speed = 0;
  for (let t = from; t < SECONDS; t += step) {
    speed = Math.max(0, speed + step * GRAVITY * (1 - thrust(hover.throttle + along(THROTTLE, t)) / weight));
    points.push([t + step, speed / induced]);
    if (speed === 0 && t > from + 1) break;
  }
  return points;
}

function along(line, t) {
  const next = line.findIndex(([at]) => at > t);
  if (next <= 0) return line.at(next === 0 ? 0 : -1)[1];
  const [[from, low], [to, high]] = [line[next - 1], line[next]];
  return low + ((high - low) * (t - from)) / (to - from);
}

/** See hidden-log.d.mts. */
export function hiddenLog() {
  const airframe = hiddenCraft();
  const { scale } = airframe.controller;
  const acting = ({ p, i, d }) => ({ p: p * scale.p, i: i * UNIT_OF_I, d: d * scale.d });
  return simulateLog(airframe, {
    seconds: SECONDS,
    gains: { roll: acting(GAINS.roll), pitch: acting(GAINS.pitch), yaw: acting(GAINS.yaw) },
    command: COMMAND,
    throttle: THROTTLE,
    descent: descentOf(airframe, 6),
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
