// What a simulated step costs on one core: the vector kernel, the plain loop and the same loop in C side by side, then whole
// runs (rigs, kernel and measures) over the kernel alone. Works on dist; `node test/bench/kernel.mjs [--json FILE]`.
import { readFileSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { planFor } from "../../dist/flow/plan.js";
import { readAirframe, readSweep } from "../../dist/flow/read.js";
import { fly, flyManyOf, scratchFor } from "../../dist/kernel/fly.js";
import * as m from "../../dist/kernel/memory.js";
import { rigOf } from "../../dist/kernel/rig.js";
import { loadVectorKernel } from "../../dist/kernel/vector.js";
import { questionOf } from "../../dist/run/question.js";
import { taskRunner } from "../../dist/run/task.js";
import { readConstants } from "../../dist/translator/constants.js";
import { printC } from "../../dist/translator/print-c.js";
import { readProgram } from "../../dist/translator/program.js";
import { compiler, FLAGS, flightsInC } from "./flights-in-c.mjs";

const POINTS = 64;
const PASSES = 12;

const plan = planFor(readAirframe("models/sandpiper-r1.yaml"), readSweep("sweeps/first-tune.yaml"));
const kernel = loadVectorKernel(plan.airframe.rotors.length);
if (kernel === null) throw new Error("no vector kernel: build first");

/** Points strewn over the sweep's grid. */
function gains({ p, d }) {
  const strewn = (line, by) => Float64Array.from({ length: POINTS }, (_, i) => line[(i * by) % line.length]);
  return { p: strewn(p, 7), d: strewn(d, 5) };
}

const points = gains(plan.sweep.grid);

/** ns per simulated step of one call. */
function timed(steps, work) {
  const before = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - before) / steps;
}

const least = (values) => Math.min(...values);
const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

/** One rig flown by each kernel in turn, pass by pass, so that all meet the same machine. */
function kernelsSideBySide(variant) {
  const rig = rigOf(plan, variant);
  const { window } = questionOf(variant, rig);
  const steps = POINTS * rig.steps;
  const abreast = flyManyOf(rig, kernel);
  const scratch = scratchFor(rig);
  const text = (name) => readFileSync(`src/kernel/${name}`, "utf8");
  const inC =
    compiler() === null
      ? null
      : flightsInC(printC(readProgram("loop.ts", text("loop.ts"), readConstants("memory.ts", text("memory.ts")))), m);
  const times = { vector: [], plain: [], c: [] };
  for (let pass = 0; pass < PASSES; pass++) {
    if (inC !== null) times.c.push(...inC.fly(rig, points, window, 3).nsPerStep);
    for (let round = 0; round < 5; round++) times.vector.push(timed(steps, () => abreast(points, window, () => {})));
    const inTurn = () => {
      for (let i = 0; i < POINTS; i++) fly(rig, points.p[i], points.d[i], window, scratch);
    };
    times.plain.push(timed(steps, inTurn));
  }
  inC?.close();
  return times;
}

/** One variant of every script: its task as the workers run it, and the kernel's share of it. */
function wholeRuns() {
  const run = taskRunner(plan);
  const perGrid = plan.sweep.grid.p.length * plan.sweep.grid.d.length;
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
    const abreast = flyManyOf(rig, kernel);
    const steps = POINTS * rig.steps;
    const times = { kernel: [], task: [] };
    for (let round = 0; round < 8; round++) {
      times.kernel.push(timed(steps, () => abreast(points, window, () => {})));
      times.task.push(timed(steps, () => run({ variant: variant.index, ...points })));
    }
    return { script: variant.script.name, kernel: least(times.kernel), whole: least(times.task) + median(rigs) };
  });
}

const number = (value) => value.toFixed(1).padStart(8);
const line = (name, values) => console.log(`${name.padEnd(44)}${number(least(values))}${number(median(values))}`);

const variant = plan.variants.find(({ script }) => script.kind === "stop");
const times = kernelsSideBySide(variant);
const whole = wholeRuns();
const sum = (of) => whole.reduce((total, one) => total + of(one), 0);

const results = {
  nsPerStep: least(times.vector),
  kernelVsC: times.c.length === 0 ? null : least(times.c) / least(times.vector),
  kernelVsCMedian: times.c.length === 0 ? null : median(times.c) / median(times.vector),
  kernelVsPlain: least(times.plain) / least(times.vector),
  wholeRunOverKernel: sum((one) => one.whole) / sum((one) => one.kernel),
};

console.log(`${cpus()[0]?.model ?? "unknown processor"}, Node ${process.version}, ${compiler() ?? "no gcc"}`);
console.log(
  `${plan.airframe.name}, ${variant.script.name}: ${plan.airframe.rotors.length} rotors; ns per simulated step on one core\n`,
);
console.log(`${"".padEnd(44)}${"least".padStart(8)}${"median".padStart(8)}`);
if (times.c.length > 0) line(`C, gcc ${FLAGS.join(" ")}`, times.c);
line("plain JavaScript", times.plain);
line(`vector kernel, ${kernel.lanes} lanes`, times.vector);
if (results.kernelVsC !== null)
  console.log(
    `\nvector kernel against C: ${results.kernelVsC.toFixed(2)} times faster (least), ${results.kernelVsCMedian.toFixed(2)} (median)`,
  );
console.log(`vector kernel against plain JavaScript: ${results.kernelVsPlain.toFixed(2)} times faster\n`);
console.log(`${"whole run over kernel".padEnd(24)}${"kernel".padStart(8)}${"whole".padStart(8)}${"ratio".padStart(8)}`);
for (const { script, kernel: alone, whole: all } of whole)
  console.log(`${script.padEnd(24)}${number(alone)}${number(all)}${(all / alone).toFixed(2).padStart(8)}`);
console.log(`${"all".padEnd(48)}${results.wholeRunOverKernel.toFixed(2)}`);

const json = process.argv.indexOf("--json");
if (json > 0) writeFileSync(process.argv[json + 1], `${JSON.stringify(results, null, 2)}\n`);
