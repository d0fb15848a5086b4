// Rigs drawn at random, within what a craft may be and beyond any sensible craft: any count of rotors, stages, latency and
// substeps, every number of craft and drive at work.
import fc from "fast-check";
import type { FilterStage, LowPass, Notch } from "../../src/airframe/airframe.js";
import { isNotch, lowPassStage, notchStage } from "../../src/airframe/filter.js";
import * as m from "../../src/kernel/memory.js";
import { movingCells } from "../../src/kernel/moving-stages.js";
import type { Rig } from "../../src/kernel/rig.js";
import type { Span } from "../../src/kernel/segments.js";

const RATE = 4000; // Hz

const shapes: fc.Arbitrary<m.Shape> = fc
  .record({
    rotors: fc.integer({ min: 4, max: 8 }),
    sensorStages: fc.integer({ min: 0, max: 2 }),
    derivativeStages: fc.integer({ min: 0, max: 2 }),
    bends: fc.integer({ min: 0, max: 4 }),
    movingSensor: fc.integer({ min: 0, max: 2 }),
    movingDerivative: fc.integer({ min: 0, max: 2 }),
    delaySteps: fc.integer({ min: 0, max: 6 }),
    substeps: fc.integer({ min: 1, max: 3 }),
    older: fc.integer({ min: 0, max: 3 }),
    extended: fc.constantFrom(0 as const, 1 as const),
    coupled: fc.constantFrom(0 as const, 1 as const),
  })
  .map(({ older, bends, movingSensor, movingDerivative, ...shape }) => ({
    ...shape,
    dutyBends: shape.extended * bends,
    movingSensorStages: shape.extended * movingSensor,
    movingDerivativeStages: shape.extended * movingDerivative,
    olderSteps: shape.delaySteps === 0 ? shape.substeps : Math.min(older, shape.substeps),
  }));

/** Numbers between 0 and 1, as many as wanted, from a seed. */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

export const rigs: fc.Arbitrary<Rig> = fc
  .record({
    shape: shapes,
    axis: fc.constantFrom(0 as const, 1 as const, 2 as const),
    steps: fc.integer({ min: 1, max: 160 }),
    seed: fc.integer(),
  })
  .map(({ shape: drawn, axis, steps, seed }) => {
    const shape = axis === 2 ? { ...drawn, coupled: 1 as const } : drawn; // yaw is simulated with all terms
    const next = numbers(seed);
    const between = (from: number, to: number) => from + next() * (to - from);
    const craft = craftOf(shape, between);
    const start = startOf(shape, between);
    const from = Math.floor(between(0, steps + 1));
    const disturbed = { from, to: from + Math.floor(between(0, steps - from + 1)) };
    const values = driveOf(shape, steps, disturbed, between);
    const drive = {
      steps,
      width: m.driveWidth(shape),
      values,
      command: new Float64Array(steps),
      disturbed,
      restHeat: new Float64Array(steps),
    };
    return { shape, axis, steps, craft, start, drive, rate: RATE, period: 1 / RATE };
  });

type Between = (from: number, to: number) => number;

function craftOf(shape: m.Shape, between: Between): Float64Array {
  const craft = new Float64Array(m.craftLength(shape));
  const inertia = [1.5e-3, 2e-3, 3e-3, 1e-4, -1e-4, 5e-5].map((value) => value * between(0.5, 2));
  const mobility = [700, 500, 330, 20, -30, 10].map((value) => value * between(0.5, 2));
  const places: readonly (readonly [place: number, value: number])[] = [
    [m.SUBSTEP, 1 / RATE / shape.substeps],
    [m.IDLE, 0.06],
    [m.DUTY_SPAN, 0.94],
    [m.YAW_ROOM, 0.5],
    [m.INTEGRAL_LIMIT, between(0.01, 0.3)],
    [m.PACK_EMF, between(7, 25)],
    [m.PACK_RATIO, between(0, 0.5)],
    [m.MOTOR_CONSTANT, between(0.003, 0.01)],
    [m.CONDUCTANCE, between(5, 20)],
    [m.TORQUE_TO_SPEED, between(300, 1500)],
    [m.FRICTION, between(100, 9000)],
    [m.LOAD_STATIC, between(1e-3, 5e-3)],
    [m.LOAD_INFLOW, between(-1e-3, 1e-3)],
    [m.ROTOR_INERTIA, between(3e-6, 2e-5)],
    [m.THRUST_STATIC, between(5e-7, 4e-6)],
    [m.ZERO_THRUST_SLOPE, between(2, 8)],
  ];
  const shaping: typeof places = [
    [m.NOMINAL_VOLTS, between(5, 20)],
    [m.VOLTS_SHARE, between(0, 0.5)],
    [m.VOLTS_POLE, between(-1, 0)],
    [m.DUTY_START, between(0, 0.2)],
    [m.DUTY_SLOPE, between(0.3, 2)],
    [m.DUTY_FLOOR, 0.06],
    [m.DUTY_CEILING, 1],
  ];
  for (const [place, value] of [...places, ...shaping]) craft[place] = value;
  for (let n = 0; n < 2 * shape.dutyBends; n++) craft[m.dutyTableAt(shape) + n] = between(-0.3, 0.9);
  craft.set(m.takeoverCells(between(0, 1)), m.NEWER_SHARE);
  craft.set(inertia, m.INERTIA);
  craft.set(mobility, m.MOBILITY);
  for (let i = 0; i < shape.rotors; i++) {
    const row = [
      between(-0.2, 0.2),
      between(-0.2, 0.2),
      i % 2 === 0 ? 1 : -1,
      between(-1, 1),
      between(-1, 1),
      between(-1, 1),
    ];
    craft.set(row, m.CRAFT_SIZE + i * m.ROTOR_WIDTH);
  }
  const filters = m.CRAFT_SIZE + shape.rotors * m.ROTOR_WIDTH;
  for (let s = 0; s < shape.sensorStages + shape.derivativeStages; s++) {
    const stage = stageOf(between);
    craft.set(
      (isNotch(stage) ? notchStage : lowPassStage)(stage as Notch & LowPass, RATE),
      filters + s * m.STAGE_WIDTH,
    );
  }
  return craft;
}

function stageOf(between: Between): FilterStage {
  const order = between(0, 1) < 0.5 ? (1 as const) : (2 as const);
  const frequency = between(50, 900);
  return between(0, 1) < 0.5 ? { order, cutoff: frequency } : { centre: frequency, width: between(5, 300) };
}

function startOf(shape: m.Shape, between: Between): Float64Array {
  const start = new Float64Array(m.stateLength(shape));
  for (let a = 0; a < 3; a++) {
    start[m.BODY_RATE + a] = between(-5, 5);
    start[m.INTEGRAL + a] = between(-0.02, 0.02);
    start[m.P_GAIN + a] = between(0, 0.08);
    start[m.I_GAIN + a] = between(0, 1e-4);
    start[m.D_GAIN + a] = between(0, 2);
  }
  start[m.SERVED] = 1;
  start[m.PACK_VOLTS] = between(5, 25);
  start[m.VOLTS_MEMORY] = between(5, 25);
  const { rotors } = shape;
  for (let i = 0; i < rotors; i++) {
    const speed = Math.max(0, between(-500, 2500));
    start[m.STATE_SIZE + i] = speed;
    start[m.STATE_SIZE + rotors + i] = speed;
  }
  for (let i = m.delayLineAt(shape); i < start.length; i++) start[i] = between(0.06, 1);
  return start;
}

function driveOf(shape: m.Shape, steps: number, disturbed: Span, between: Between): Float64Array {
  const width = m.driveWidth(shape);
  const values = new Float64Array(steps * width);
  const level = between(0, 1);
  const command = between(-6, 6);
  for (let k = 0; k < steps; k++) {
    const now = k * width;
    values[now + m.THROTTLE] = level;
    for (let a = 0; a < 3; a++) {
      values[now + m.COMMAND + a] = command + between(-0.5, 0.5);
      values[now + m.NOISE + a] = between(-0.1, 0.1);
    }
    for (let n = 0; n < shape.extended * m.EXTENSION; n++) values[now + m.extensionAt(shape) + n] = between(0.1, 3);
    // Each of another kind, at another place in every period: worse than any that follow something.
    for (let at = m.extensionAt(shape) + m.EXTENSION; at < width; at += m.MOVING_WIDTH)
      values.set(movingCells(stageOf(between), RATE), now + at);
    const still = k < disturbed.from || k >= disturbed.to;
    values[now + m.CLIMB] = still ? 0 : between(-10, 10);
    values[now + m.GUST_ROLL] = still ? 0 : between(-3, 3);
    values[now + m.GUST_PITCH] = still ? 0 : between(-3, 3);
    for (let i = 0; i < shape.rotors; i++) values[now + m.THRUST_SHARE + i] = still ? 1 : between(0.5, 1.2);
  }
  return values;
}
