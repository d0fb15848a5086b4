// What a simulated step costs on one core: the vector kernel, the plain loop and the same loop in C and in NumPy side by side,
// then tasks as workers run them (rigs, kernel and measures) over the kernel alone. Works on dist.
import { planFor } from "../../dist/flow/plan.js";
import { readAirframe, readSweep } from "../../dist/flow/read.js";
import { loadVectorKernel } from "../../dist/kernel/load-vector.js";
import * as m from "../../dist/kernel/memory.js";
import { rigOf } from "../../dist/kernel/rig.js";
import { countsOfKind, segmentsOf } from "../../dist/kernel/segments.js";
import { scratchFor, simulateManyOf, simulateTrial } from "../../dist/kernel/simulate-trial.js";
import { kernelShapeOf } from "../../dist/kernel/vector.js";
import { questionOf } from "../../dist/run/question.js";
import { taskRunner } from "../../dist/run/task-runner.js";
import { printC } from "../../dist/translator/print-c.js";
import { printNumpy } from "../../dist/translator/print-numpy.js";
import { readSources } from "../../dist/translator/sources.js";
import { least, median } from "./figures.mjs";
import { gcc, loopInC, loopInNumpy, numpy } from "./other-languages.mjs";

const POINTS = 64;
const PASSES = 12;
/** NumPy's costs lie in the call, so it gets as many trials as it has room for, and few steps of each. */
const NUMPY = { trials: 4096, steps: 120 };

const plan = planFor(readAirframe("models/sandpiper-r1.yaml"), readSweep("sweeps/first-tune.yaml"));
const variant = plan.variants.find(({ script }) => script.kind === "stop");
const kernel = loadVectorKernel(kernelShapeOf(rigOf(plan, variant)));
if (kernel === null) throw new Error("no vector kernel: build first");
export const LANES = kernel.lanes;

/** Points strewn over the sweep's grid. */
function gains({ p, d }, points) {
  const strewn = (line, by) => Float64Array.from({ length: points }, (_, i) => line[(i * by) % line.length]);
  return { p: strewn(p, 7), d: strewn(d, 5) };
}

const points = gains(plan.sweep.grid.roll, POINTS);

/** ns per simulated step of one call. */
function timed(steps, work) {
  const before = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - before) / steps;
}

/** One rig simulated by each kernel in turn, pass by pass, so that all meet the same machine: ns per step. */
export function kernelsSideBySide() {
  const rig = rigOf(plan, variant);
  const { window } = questionOf(variant, rig);
  const steps = POINTS * rig.steps;
  const inLanes = simulateManyOf(rig, kernel);
  const scratch = scratchFor(rig);
  const { loop } = readSources("src");
  const inC = gcc() === null ? null : loopInC(printC(loop), m);
  const inNumpy = numpy() === null ? null : loopInNumpy(printNumpy(loop), m);
  const segments = segmentsOf(rig.steps, rig.drive.disturbed, window, false).map(({ from, to, kind }) => [
    from,
    to,
    ...countsOfKind(kind),
  ]);
  const short = { ...rig, steps: NUMPY.steps };
  const many = gains(plan.sweep.grid.roll, NUMPY.trials);
  const times = { vector: [], plain: [], c: [], numpy: [] };
  for (let pass = 0; pass < PASSES; pass++) {
    if (inC !== null) times.c.push(...inC.simulate(rig, points, segments, 3).nsPerStep);
    for (let round = 0; round < 5; round++) times.vector.push(timed(steps, () => inLanes(points, window, () => {})));
    const inTurn = () => {
      for (let i = 0; i < POINTS; i++) simulateTrial(rig, points.p[i], points.d[i], window, scratch);
    };
    times.plain.push(timed(steps, inTurn));
    if (inNumpy !== null && pass % 4 === 0)
      times.numpy.push(...inNumpy.simulate(short, many, [[0, NUMPY.steps, 0, 0]], 2).nsPerStep);
  }
  inC?.close();
  inNumpy?.close();
  return times;
}

/**
 * A craft whose controller has all that a model may declare, and the same craft with gains and filters alone, one after the other:
 * ns per step.
 */
export function everythingOnAndOff() {
  const sweep = readSweep("sweeps/what-each-buys.yaml");
  const [off, on] = ["models/curlew-r1.yaml", "models/curlew-r2.yaml"].map((model) => {
    const plan = planFor(readAirframe(model), sweep);
    const variant = plan.variants.find(({ script }) => script.kind === "stop");
    const rig = rigOf(plan, variant);
    const inLanes = simulateManyOf(rig, loadVectorKernel(kernelShapeOf(rig)));
    const { window } = questionOf(variant, rig);
    const strewn = gains(plan.sweep.grid.roll, POINTS);
    return () => timed(POINTS * rig.steps, () => inLanes(strewn, window, () => {}));
  });
  const times = { off: [], on: [] };
  for (let round = 0; round < 40; round++) {
    times.off.push(off());
    times.on.push(on());
  }
  return times;
}

/** One variant of every script: a task as the workers run it, rigs included, and the kernel's share of it; ns per step. */
export function tasksOverKernel() {
  const run = taskRunner(plan);
  const perGrid = plan.sweep.grid.roll.p.length * plan.sweep.grid.roll.d.length;
  const scripts = new Map(plan.variants.map((variant) => [variant.script.name, variant]));
  return [...scripts.values()].map((variant) => {
    const rigs = [];
    let rig = rigOf(plan, variant);
    for (let round = 0; round < 5; round++)
      rigs.push(
        timed(perGrid * rig.steps, () => {
          rig = rigOf(plan, variant);
        }),
      );
    const { window } = questionOf(variant, rig);
    const inLanes = simulateManyOf(rig, kernel);
    const steps = POINTS * rig.steps;
    const times = { kernel: [], task: [] };
    for (let round = 0; round < 8; round++) {
      times.kernel.push(timed(steps, () => inLanes(points, window, () => {})));
      times.task.push(timed(steps, () => run({ variant: variant.index, ...points })));
    }
    return { script: variant.script.name, kernel: least(times.kernel), run: least(times.task) + median(rigs) };
  });
}
