// The loop in other languages: printed from src/kernel/loop.ts, run as a process of its own.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Scalar doubles at gcc's best, each operation rounded as JavaScript rounds it. */
export const FLAGS = ["-O3", "-march=native", "-ffp-contract=off"];

/** First line a program prints, or null where there is none. */
function firstLine(program, ...words) {
  try {
    return execFileSync(program, words, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).split("\n")[0];
  } catch {
    return null;
  }
}

export const gcc = () => firstLine("gcc", "--version");
export const numpy = () =>
  firstLine("python3", "-c", "import numpy, sys; print('Python', sys.version.split()[0], 'NumPy', numpy.__version__)");

/**
 * `simulate(rig, gains, segments, rounds)`, each segment `[from, to, disturbed, accumulate]`, gives ns per step of each round, and all traces and final states one after another;
 * `close` removes what was made. `printed` is the loop in C, `m` the kernel's memory.ts.
 */
export function loopInC(printed, m) {
  const loop = printed.replace("void advance", "__attribute__((noinline)) void advance");
  return processOf(`${loop}\n${driver("other-languages.c")}`, m, (folder) => {
    const program = join(folder, "loop");
    execFileSync("gcc", [...FLAGS, "-x", "c", "-o", program, join(folder, "source")]);
    return [program];
  });
}

/** The same with NumPy, all trials in lockstep. */
export const loopInNumpy = (printed, m) =>
  processOf(`${printed}\n${driver("other-languages.py")}`, m, (folder) => ["python3", join(folder, "source")]);

function processOf(source, m, commandIn) {
  const folder = mkdtempSync(join(tmpdir(), "gainscape-bench-"));
  const [input, output] = ["in", "out"].map((name) => join(folder, name));
  writeFileSync(join(folder, "source"), source);
  const [program, ...words] = commandIn(folder);
  return {
    simulate(rig, { p, d }, segments, rounds) {
      writeFileSync(input, bytesOf(rig, { p, d }, segments, rounds, m));
      const printed = execFileSync(program, [...words, input, output], { encoding: "utf8" });
      const numbers = new Float64Array(new Uint8Array(readFileSync(output)).buffer);
      const traces = p.length * rig.steps;
      return {
        nsPerStep: printed.trim().split("\n").map(Number),
        traces: numbers.subarray(0, traces),
        states: numbers.subarray(traces),
      };
    },
    close: () => rmSync(folder, { recursive: true }),
  };
}

const driver = (name) => readFileSync(new URL(`./${name}`, import.meta.url), "utf8");

/** The layout of `enum` in other-languages.c, then the arrays. */
function bytesOf(rig, { p, d }, segments, rounds, m) {
  const counts = [...m.countsOf(rig.shape), rig.axis, rig.steps, segments.length];
  const run = [p.length, rounds, m.P_GAIN + rig.axis, m.D_GAIN + rig.axis];
  const lengths = [rig.craft.length, rig.drive.values.length, rig.start.length];
  const gains = Array.from(p, (gain, i) => [gain, d[i] / rig.period]).flat();
  const parts = [[...counts, ...run, ...lengths], segments.flat(), rig.craft, rig.drive.values, rig.start, gains];
  return Buffer.concat(parts.map((part) => Buffer.from(Float64Array.from(part).buffer)));
}
