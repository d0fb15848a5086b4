// The command line run in a folder of its own that holds the shipped models, sweeps and scripts.
import { spawn } from "node:child_process";
import { cpSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { emptyFolder } from "./command.js";
import { type Ended, served } from "./served.js";

const MAIN = resolve("dist/cli/main.js");

/**
 * A copy of the shipped inputs; `coarse` are the points a side (P, D) to which every sweep's grid is thinned, and then
 * one throttle level and one pack speak for all, and the prop wash of a comparison is left out.
 */
export function workplace(coarse?: readonly [number, number], home = emptyFolder()): string {
  for (const folder of ["models", "sweeps"]) cpSync(folder, join(home, folder), { recursive: true });
  const sweeps = readdirSync(join(home, "sweeps")).filter((file) => file.endsWith(".yaml"));
  for (const file of coarse === undefined ? [] : sweeps) {
    const path = join(home, "sweeps", file);
    writeFileSync(path, thinned(readFileSync(path, "utf8"), coarse as readonly [number, number]));
  }
  return home;
}

const FEWEST = 8; // lines that can be left to the plan

const thinned = (sweep: string, [p, d]: readonly [number, number]): string =>
  sweep
    .replace(/^grid: auto.*/m, `grid: auto ${Math.max(p, FEWEST)} x ${Math.max(d, FEWEST)}`)
    .replace(/^( {2}p: .*points: )\d+/m, `$1${p}`)
    .replace(/^( {2}d: .*points: )\d+/m, `$1${d}`)
    .replaceAll(/throttle: \[hover, [^\]]*\]/g, "throttle: [hover]")
    .replace(/^ {2}- \{name: tired pack, .*\n/m, "")
    // Its air is made anew for each seed that a starting tune is tried under: half of the work.
    .replace(/^ {2}- \{use: wash-turn, rates: .*\n/m, "");

/** A command's outcome in a folder, with a cache kept there. */
export const runIn = (home: string, ...words: string[]): Promise<Ended> =>
  served({ words, folder: home, environment: { ...process.env, XDG_CACHE_HOME: join(home, ".cache") } });

/** The same in a process of its own, with more in its environment. */
export function runInWith(
  environment: Readonly<Record<string, string>>,
  home: string,
  ...words: string[]
): Promise<Ended> {
  const child = spawn(process.execPath, [MAIN, ...words], {
    cwd: home,
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, XDG_CACHE_HOME: join(home, ".cache"), ...environment },
  });
  const output = { stdout: "", stderr: "" };
  for (const stream of ["stdout", "stderr"] as const) {
    child[stream].setEncoding("utf8").on("data", (text: string) => {
      output[stream] += text;
    });
  }
  return new Promise((done) => child.on("close", (code) => done({ code, ...output })));
}

/** Every file below a folder. */
export const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
