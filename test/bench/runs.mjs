// Whole runs as processes: two workers beside two processes, growth with the grid and with draws.
import { fork, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { exponent, least, median } from "./figures.mjs";

/** Runs of whole sweeps started at the same moment, of what is built in their `folder`, here if none is named; what each took. */
export async function together(...runs) {
  const started = runs.map(({ folder }) => fork(new URL("./run.mjs", import.meta.url), folder ? { cwd: folder } : {}));
  const heard = (child) => new Promise((resolve) => child.once("message", resolve));
  await Promise.all(started.map(heard));
  const answers = started.map(heard);
  for (const [i, child] of started.entries()) child.send(runs[i]);
  return Promise.all(answers);
}

/**
 * Trials a second of one run on two workers over those of two runs on one worker each, side by side and in turn. Both do
 * as much: the one has twice the D lines.
 */
export async function twoWorkersOverTwoProcesses(rounds) {
  const [half, full] = [
    { p: 32, d: 12 },
    { p: 32, d: 24 },
  ];
  const rate = (runs) =>
    runs.reduce((sum, { trials }) => sum + trials, 0) / Math.max(...runs.map(({ seconds }) => seconds));
  const ratios = [];
  for (let round = 0; round < rounds; round++) {
    const apart = rate(await together({ grid: half, workers: 1 }, { grid: half, workers: 1 }));
    ratios.push(rate(await together({ grid: full, workers: 2 })) / apart);
  }
  return median(ratios);
}

/** Whole runs over squares of so many lines, all scripts and conditions. */
export async function squares(sides, workers) {
  const runs = [];
  for (const side of sides) {
    const [run] = await together({ grid: { p: side, d: side }, workers });
    runs.push({ side, points: side * side, ...run });
  }
  return runs;
}

/** A run with so many draws over that of `squares` without; time and peak memory. */
export async function drawsOverNominal(nominal, draws, workers) {
  const { side } = nominal;
  const [drawn] = await together({ grid: { p: side, d: side, draws }, workers });
  return { drawn, seconds: drawn.seconds / nominal.seconds, trials: drawn.trials / nominal.trials };
}

/**
 * What leaving out trials where a nudge settles a point takes of a run that simulates everything, in time and in trials: on far
 * even lines, a square of so many, in turn.
 */
export async function settledOverAll(side, workers, rounds) {
  const grid = { p: side, d: side, far: true };
  const pairs = [];
  for (let round = 0; round < rounds; round++) {
    const [all] = await together({ grid, workers });
    const [needed] = await together({ grid: { ...grid, leaveOut: true }, workers });
    pairs.push({ seconds: needed.seconds / all.seconds, trials: needed.trials / all.trials });
  }
  return { seconds: median(pairs.map(({ seconds }) => seconds)), trials: pairs[0].trials };
}

/** Planning and theory on a square of so many lines over the whole run there, in seconds of processor: the first answer's share. */
export async function theoryShare(side, workers) {
  const [run] = await together({ grid: { p: side, d: side }, workers, theory: true });
  return { theory: run.theorySeconds, share: run.theorySeconds / run.processorSeconds };
}

/** How the time of a run grows with the number of draws: slope of the logarithms, on a square of so many lines. */
export async function growthOverDraws(side, counts, workers) {
  const pairs = [];
  for (const draws of counts) {
    const [{ seconds }] = await together({ grid: { p: side, d: side, draws }, workers });
    pairs.push([draws, seconds]);
  }
  return exponent(pairs);
}

/** Seconds from the command, in a folder, to the first line it prints; the least of some. It is ended there. */
export async function firstLine(rounds, folder = ".") {
  const seconds = [];
  for (let round = 0; round < rounds; round++) {
    const out = mkdtempSync(join(tmpdir(), "gainscape-bench-"));
    const words = ["dist/cli/main.js", "sweep", "sweeps/first-tune.yaml", "--no-cache", "--out", join(out, "map")];
    const began = performance.now();
    const child = spawn(process.execPath, words, { cwd: folder, stdio: ["ignore", "ignore", "pipe"] });
    const ended = new Promise((resolve) => child.once("close", resolve));
    await new Promise((resolve) => child.stderr.once("data", resolve));
    seconds.push((performance.now() - began) / 1000);
    child.kill("SIGTERM");
    await ended;
    rmSync(out, { recursive: true, force: true });
  }
  return least(seconds);
}
