// The command line as it is shipped: as a process of its own, or where nothing but its outcome is asked, in one process
// for all commands of a test file.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach } from "vitest";
import { type Ended, served } from "./served.js";

export const MAIN = "dist/cli/main.js";

export interface Started {
  readonly child: ChildProcess;
  readonly ended: Promise<Ended>;
  /** Resolves once standard error holds the text; rejects where the command ends before. */
  readonly says: (text: string) => Promise<void>;
}

/** What a process is started with besides its arguments. */
export interface Around {
  readonly environment?: Readonly<Record<string, string>>;
  /** A module that is loaded before anything else, into each worker too. */
  readonly preload?: string;
  /** Shell text run before, in the same process: limits. */
  readonly shell?: string;
  /** The first module, where it is not the one of this build. */
  readonly main?: string;
  /** Held to the modes of files like anybody, also where the tests are run by root. */
  readonly heldToModes?: boolean;
}

const POWERLESS = ["setpriv", "--bounding-set=-all", "--inh-caps=-all", "--"];

/** Each process has a cache of its own, unless the environment names one. */
export function startWith(
  { environment, preload, shell, main = MAIN, heldToModes = false }: Around,
  ...args: string[]
): Started {
  const node = [process.execPath, ...(preload === undefined ? [] : ["--import", resolve(preload)]), main, ...args];
  const words = shell === undefined ? node : ["bash", "-c", `${shell}; exec "$@"`, "bash", ...node];
  const [program, ...rest] = heldToModes && process.getuid?.() === 0 ? [...POWERLESS, ...words] : words;
  const child = spawn(program as string, rest, {
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, XDG_CACHE_HOME: emptyFolder(), ...environment },
  });
  const output = { stdout: "", stderr: "" };
  for (const stream of ["stdout", "stderr"] as const) {
    child[stream].setEncoding("utf8").on("data", (text: string) => {
      output[stream] += text;
    });
  }
  const ended = new Promise<Ended>((resolve) => {
    child.on("close", (code) => resolve({ code, ...output }));
  });
  const says = (text: string) =>
    new Promise<void>((resolve, reject) => {
      child.stderr.on("data", () => {
        if (output.stderr.includes(text)) resolve();
      });
      ended.then(({ stderr }) => reject(new Error(`ended before it printed "${text}": ${stderr}`)));
    });
  return { child, ended, says };
}

export const start = (...words: string[]): Started => startWith({}, ...words);
export const runWith = (around: Around, ...words: string[]): Promise<Ended> => startWith(around, ...words).ended;

/** A command's outcome, with a cache of its own. */
export const run = (...words: string[]): Promise<Ended> => runCached(emptyFolder(), ...words);
/** A command's outcome, with the cache kept below `home`. */
export const runCached = (home: string, ...words: string[]): Promise<Ended> =>
  served({ words, folder: process.cwd(), environment: { ...process.env, XDG_CACHE_HOME: home } });

const made: string[] = [];
afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder of its own for one test. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "gainscape-"));
  made.push(folder);
  return folder;
}

/** What a sweep leaves. */
export const FILES = ["card.html", "index.html", "map.json", "points.csv"];

/** No stack trace, no control characters: what a person may be shown. */
export const READABLE = /^(?![\s\S]*\n {4}at )[^\u0000-\u0008\u000b-\u001f\u007f-\u009f]*$/;
