// The command line run in a folder of its own that holds the shipped models, sweeps and scripts.
import { spawn } from "node:child_process";
import { cpSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { type Ended, emptyFolder } from "./command.js";

const MAIN = resolve("dist/cli/main.js");

/** A copy of the shipped inputs; `coarse` are the points a side (P, D) to which every sweep's grid is thinned. */
export function workplace(coarse?: readonly [number, number], home = emptyFolder()): string {
  for (const part of ["models", "sweeps"]) cpSync(part, join(home, part), { recursive: true });
  const sweeps = readdirSync(join(home, "sweeps")).filter((file) => file.endsWith(".yaml"));
  for (const file of coarse === undefined ? [] : sweeps) {
    const path = join(home, "sweeps", file);
    writeFileSync(
      path,
      readFileSync(path, "utf8").replace(
        /^( {2}[pd]: .*points: )\d+/gm,
        (_, before: string) => `${before}${coarse?.[before.includes("p:") ? 0 : 1]}`,
      ),
    );
  }
  return home;
}

export const runIn = (home: string, ...words: string[]): Promise<Ended> => runInWith({}, home, ...words);

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
  const said = { stdout: "", stderr: "" };
  for (const stream of ["stdout", "stderr"] as const) {
    child[stream].setEncoding("utf8").on("data", (text: string) => {
      said[stream] += text;
    });
  }
  return new Promise((done) => child.on("close", (code) => done({ code, ...said })));
}
