// The log a craft would leave, by the kernel's own loop: every control period of one long trial, both axes commanded at once,
// written down every so many periods. What a logger stores: the sensor's rates before any filter, commands, duties as demanded
// (before the latency acts on them), pack voltage.
import { at } from "../../dist/base/at.js";
import { DEFAULT_GATES } from "../../dist/base/gates.js";
import { MEASURES } from "../../dist/base/measures.js";
import { commandsInto } from "../../dist/kernel/controls.js";
import { advance } from "../../dist/kernel/loop.js";
import * as m from "../../dist/kernel/memory.js";
import { rigOf } from "../../dist/kernel/rig.js";
import { planSweep } from "../../dist/plan/plan.js";

const AXES = ["roll", "pitch", "yaw"];
const GRID = { p: [0.01], d: [0.0001] };

/** See simulate-log.d.mts. */
export function simulateLog(airframe, flight) {
  const plan = planOf(airframe, flight);
  const variant = at(plan.variants, 0);
  const rig = rigOf(plan, variant);
  const { craft, drive, start, shape, steps } = { ...rig, shape: { ...rig.shape, coupled: 1 } };
  const { rate } = airframe.controller;
  const throttle = Float64Array.from({ length: steps }, (_, k) => drive.values[k * drive.width + m.THROTTLE]);
  const asked = Object.fromEntries(
    AXES.map((axis) => [axis, sampledLine(flight.command?.[axis] ?? [], steps, 1 / rate)]),
  );
  commandsInto(drive.values, shape, { throttle, steps }, asked, airframe);
  for (const [a, axis] of AXES.entries()) {
    const gains = flight.gains[axis];
    if (gains === undefined) continue;
    start[m.P_GAIN + a] = gains.p;
    start[m.I_GAIN + a] = gains.i / rate;
    start[m.D_GAIN + a] = gains.d * rate;
  }
  return written({ ...rig, shape, craft, drive, asked, state: start.slice() }, flight.every ?? 1, rate);
}

function planOf(airframe, { seconds, throttle = [], descent = [], noise = true, seed = 1, charge = 1 }) {
  const script = {
    name: "log",
    title: "",
    kind: "wobble",
    axes: ["roll"],
    duration: seconds,
    window: { from: 0, to: seconds },
    tail: { from: 0, to: seconds },
    noise,
    throttle: [[0, { kind: "level", plus: 0 }], ...throttle.map(([t, plus]) => [t, { kind: "level", plus }])],
    command: [[0, { kind: "rate", rate: 1 }]],
    yaw: [],
    climb: [],
    descent: descent.map(([t, ratio]) => [t, { kind: "ratio", ratio }]),
    gusts: [],
  };
  const plan = planSweep(airframe, {
    name: "log",
    title: "",
    model: null,
    seed,
    grid: { roll: GRID, pitch: GRID },
    scripts: [{ script, throttle: ["hover"], rates: [1] }],
    conditions: [{ name: "log", charge, payload: null, altitude: 0, temperature: null }],
    limits: Object.fromEntries(MEASURES.map(({ id, limit }) => [id, limit])),
    margins: { gain: 6, phase: Math.PI / 4 },
    boundaryTolerance: 0.005,
    pinned: null,
    gates: DEFAULT_GATES,
    baseline: null,
    defaulted: [],
  });
  if ("variants" in plan) return plan;
  throw new Error(plan.map(({ message }) => message).join("; "));
}

/** Straight lines between points (s, value), one sample per control period. */
function sampledLine(points, steps, period) {
  const values = new Float64Array(steps);
  let next = 0;
  for (let k = 0; k < steps; k++) {
    const t = k * period;
    while (next < points.length && points[next][0] <= t + 1e-12) next++;
    const [before, after] = [points[next - 1], points[next]];
    if (before === undefined) values[k] = 0;
    else if (after === undefined) values[k] = before[1];
    else values[k] = before[1] + ((after[1] - before[1]) * (t - before[0])) / (after[0] - before[0]);
  }
  return values;
}

function written({ craft, drive, shape, steps, asked, state }, every, rate) {
  const rows = Math.ceil(steps / every);
  const column = () => new Float64Array(rows);
  const log = {
    time: column(),
    rate: AXES.map(column),
    command: AXES.map(column),
    duty: Array.from({ length: shape.rotors }, column),
    throttle: column(),
    voltage: column(),
    rotorSpeed: Array.from({ length: shape.rotors }, column),
  };
  const trace = new Float64Array(steps);
  const counts = m.countsOf(shape);
  const line = m.delayLineAt(shape);
  for (let k = 0; k < steps; k++) {
    const row = k % every === 0 ? k / every : null;
    const now = k * drive.width;
    if (row !== null) {
      log.time[row] = k / rate;
      log.throttle[row] = drive.values[now + m.THROTTLE];
      for (let a = 0; a < 3; a++) {
        log.rate[a][row] = state[m.BODY_RATE + a] + drive.values[now + m.NOISE + a];
        log.command[a][row] = asked[AXES[a]][k];
      }
      log.voltage[row] = packVoltage(craft, state, shape, k);
      for (let i = 0; i < shape.rotors; i++) log.rotorSpeed[i][row] = state[m.STATE_SIZE + i];
    }
    advance(craft, drive.values, state, trace, ...counts, 0, 1, 0, k, k + 1);
    if (row === null) continue;
    const demanded = line + (k % (shape.delaySteps + 1)) * shape.rotors;
    for (let i = 0; i < shape.rotors; i++) log.duty[i][row] = state[demanded + i];
  }
  return log;
}

/** V, at the duties that act as this control period begins. */
function packVoltage(craft, state, shape, k) {
  const acting = m.delayLineAt(shape) + ((k + 1) % (shape.delaySteps + 1)) * shape.rotors;
  let [squares, speeds] = [0, 0];
  for (let i = 0; i < shape.rotors; i++) {
    const duty = state[acting + i];
    squares += duty * duty;
    speeds += duty * state[m.STATE_SIZE + i];
  }
  const sag = craft[m.PACK_RATIO] * craft[m.MOTOR_CONSTANT] * speeds;
  return (craft[m.PACK_EMF] + sag) / (1 + craft[m.PACK_RATIO] * squares);
}
