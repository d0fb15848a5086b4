// The loop in C: printed from src/kernel/loop.ts, compiled by gcc, flown as a process of its own.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Scalar doubles at gcc's best, each operation rounded as JavaScript rounds it. */
export const FLAGS = ["-O3", "-march=native", "-ffp-contract=off"];

/** gcc's version line, or null where there is none. */
export function compiler() {
  try {
    return execFileSync("gcc", ["--version"], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).split("\n")[0];
  } catch {
    return null;
  }
}

/**
 * Compiles the loop's C source; `fly(rig, gains, window, rounds)` gives ns per step of each round, and all traces and final
 * states one after another; `close` removes what was made. `m` is the kernel's memory.ts.
 */
export function flightsInC(loop, m) {
  const folder = mkdtempSync(join(tmpdir(), "flights-"));
  const [source, program, input, output] = ["flights.c", "flights", "in", "out"].map((name) => join(folder, name));
  writeFileSync(source, `${loop.replace("void advance", "__attribute__((noinline)) void advance")}\n${driver()}`);
  execFileSync("gcc", [...FLAGS, "-o", program, source]);
  return {
    fly(rig, { p, d }, { from, to }, rounds) {
      writeFileSync(input, bytesOf(rig, { p, d }, { from, to }, rounds, m));
      const printed = execFileSync(program, [input, output], { encoding: "utf8" });
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

const driver = () => readFileSync(new URL("./flights.c", import.meta.url), "utf8");

/** The layout of `enum` in flights.c, then the arrays. */
function bytesOf(rig, { p, d }, { from, to }, rounds, m) {
  const { rotors, sensorStages, derivativeStages, delaySteps, substeps } = rig.shape;
  const counts = [rotors, sensorStages, derivativeStages, delaySteps, substeps, rig.axis, rig.steps, from, to];
  const run = [p.length, rounds, m.P_GAIN + rig.axis, m.D_GAIN + rig.axis];
  const lengths = [rig.craft.length, rig.drive.values.length, rig.start.length];
  const gains = Array.from(p, (gain, i) => [gain, d[i] / rig.period]).flat();
  const parts = [[...counts, ...run, ...lengths], rig.craft, rig.drive.values, rig.start, gains];
  return Buffer.concat(parts.map((part) => Buffer.from(Float64Array.from(part).buffer)));
}
