// What the program costs here: every figure a ratio taken side by side in one run, or a sum of one run. Works on dist.
// `npm run bench [-- --json FILE]`; the results stay in test/bench/results, a file per machine.
import { mkdirSync, writeFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import { exponent, least, median } from "./figures.mjs";
import { everythingOnAndOff, kernelsSideBySide, LANES, tasksOverKernel } from "./kernels.mjs";
import { FLAGS, gcc, numpy } from "./other-languages.mjs";
import {
  drawsOverNominal,
  firstLine,
  growthOverDraws,
  settledOverAll,
  squares,
  theoryShare,
  twoWorkersOverTwoProcesses,
} from "./runs.mjs";
import { besideOtherMachines } from "./stored.mjs";

const SIDES = [8, 16, 48];
const workers = Math.min(2, cpus().length);
const began = performance.now();

const machine = `${cpus()[0]?.model.trim() ?? "unknown processor"}, ${cpus().length} cores, ${Math.round(totalmem() / 2 ** 30)} GiB`;
console.log(`${machine}; Node ${process.version}; ${gcc() ?? "no gcc"}; ${numpy() ?? "no NumPy"}`);
console.log("Sandpiper r1, sweeps/first-tune.yaml: all scripts, throttle levels and packs\n");

const row = (name, value, unit) => console.log(`${name.padEnd(62)}${value.padStart(9)} ${unit}`);
const ratio = (over, under) => (over.length === 0 ? null : least(over) / least(under));

const times = kernelsSideBySide();
const costs = (name, values) => {
  if (values.length > 0) row(name, least(values).toFixed(1), `ns a step (median ${median(values).toFixed(1)})`);
};
costs(`vector kernel, ${LANES} lanes, one core`, times.vector);
costs(`the same loop in C, gcc ${FLAGS.join(" ")}`, times.c);
costs("the same loop in plain JavaScript", times.plain);
costs("the same loop in NumPy, 4096 trials in lockstep", times.numpy);
const kernelVsC = ratio(times.c, times.vector);
const kernelVsNumpy = ratio(times.numpy, times.vector);
const kernelVsPlain = ratio(times.plain, times.vector);
if (kernelVsC !== null) row("vector kernel over C", kernelVsC.toFixed(2), "times as fast");
row("vector kernel over plain JavaScript", kernelVsPlain.toFixed(2), "times as fast");
if (kernelVsNumpy !== null) row("vector kernel over NumPy", kernelVsNumpy.toFixed(2), "times as fast");

const everything = everythingOnAndOff();
const onOverOff = ratio(everything.on, everything.off);
row("controller with everything on over gains and filters alone", onOverOff.toFixed(2), "(Curlew r2 over r1)");

const tasks = tasksOverKernel();
const sum = (of) => tasks.reduce((total, one) => total + of(one), 0);
const wholeRunOverKernel = sum((one) => one.run) / sum((one) => one.kernel);
console.log("");
for (const { script, kernel, run } of tasks)
  row(`  ${script}: task over kernel`, (run / kernel).toFixed(2), `(${run.toFixed(1)} over ${kernel.toFixed(1)} ns)`);
row("whole run over kernel, per simulated step", wholeRunOverKernel.toFixed(2), "");

console.log("");
const runs = await squares(SIDES, workers);
for (const { side, trials, steps, seconds, searchTrials } of runs)
  row(
    `  ${side} x ${side}: ${trials} trials, ${(steps / 1e6).toFixed(0)} million steps, ${workers} workers`,
    seconds.toFixed(1),
    `s (search ${((100 * searchTrials) / trials).toFixed(1)} % of the trials)`,
  );
const growthExponent = exponent(runs.map(({ points, seconds }) => [points, seconds]));
row(
  "growth with the number of points, exponent of the whole run",
  growthExponent.toFixed(3),
  "(1: linear; less: a fixed share)",
);
const perPoint = runs.map(({ points, gridSeconds }) => (1000 * gridSeconds) / points);
row("milliseconds a point of the grid, smallest to largest", perPoint.map((ms) => ms.toFixed(1)).join(", "), "");
const largest = runs[runs.length - 1];
const trialsPerSecond = largest.trials / largest.seconds;
row("trials a second, largest grid", trialsPerSecond.toFixed(0), "");
const searchOverGrid = largest.searchTrials / largest.gridTrials;
row("boundary search over the grid, largest grid", searchOverGrid.toFixed(3), "of its trials");
row(
  "what is left to do after the grid, largest grid",
  (largest.restSeconds / largest.gridSeconds).toFixed(3),
  "of its time",
);

row(`memory of ${largest.trials} trials`, largest.mebibytes.toFixed(0), "MiB at most");

const settled = await settledOverAll(16, workers, 1);
row(
  "without what a nudge settles over every trial, far even 16 x 16",
  settled.seconds.toFixed(2),
  `times (${settled.trials.toFixed(2)} of the trials)`,
);

const theory = await theoryShare(SIDES[0], workers);
row(
  `planning and theory over the whole run, ${SIDES[0]} x ${SIDES[0]}, processor time`,
  theory.share.toFixed(3),
  `(${theory.theory.toFixed(2)} s)`,
);
const firstAnswerSeconds = await firstLine(3);
row("first answer of the shipped first-tune after the command", firstAnswerSeconds.toFixed(2), "s");

const workers2 = cpus().length < 2 ? null : await twoWorkersOverTwoProcesses(1);
if (workers2 !== null)
  row("one run on 2 workers over two runs on 1 each", workers2.toFixed(3), "of their trials a second");

const DRAWS = 64;
const nominal = runs[1];
const draws = await drawsOverNominal(nominal, DRAWS, workers);
row(
  `${DRAWS} draws over none, ${nominal.side} x ${nominal.side}, whole run`,
  draws.seconds.toFixed(2),
  `times (${draws.trials.toFixed(2)} of the trials)`,
);
row(
  "  memory with draws, without",
  `${draws.drawn.mebibytes.toFixed(0)}, ${nominal.mebibytes.toFixed(0)}`,
  "MiB at most",
);

const growthExponentOfDraws = await growthOverDraws(12, [8, 32], workers);
row("growth with the number of draws, 12 x 12, exponent", growthExponentOfDraws.toFixed(3), "");

const minutes = (performance.now() - began) / 60_000;
console.log(`\n${minutes.toFixed(1)} minutes`);

const results = {
  machine,
  node: process.version,
  compiler: gcc(),
  numpy: numpy(),
  nsPerStep: least(times.vector),
  kernelVsC,
  kernelVsPlain,
  kernelVsNumpy,
  onOverOff,
  wholeRunOverKernel,
  workers2,
  growthExponent,
  gridMillisecondsPerPoint: perPoint,
  trialsPerSecond,
  searchOverGrid,
  settledOverAll: settled.seconds,
  theoryShare: theory.share,
  theorySeconds: theory.theory,
  largestGridSeconds: largest.seconds,
  trialsOfLargestGrid: largest.trials,
  mebibytesOfLargestGrid: largest.mebibytes,
  firstAnswerSeconds,
  drawsOverNominal: draws.seconds,
  growthExponentOfDraws,
  mebibytesWithDraws: draws.drawn.mebibytes,
  minutes,
};
const folder = new URL("./results/", import.meta.url);
mkdirSync(folder, { recursive: true });
for (const line of besideOtherMachines(folder, results)) console.log(line);
const text = `${JSON.stringify(results, null, 2)}\n`;
const name = machine
  .toLowerCase()
  .replace(/\(r\)|\(tm\)/g, "")
  .replace(/[^a-z0-9]+/g, "-");
writeFileSync(new URL(`${name}.json`, folder), text);
const json = process.argv.indexOf("--json");
if (json > 0) writeFileSync(process.argv[json + 1], text);
