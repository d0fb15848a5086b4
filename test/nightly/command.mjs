// The command line as a process, for the nightly steps.
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../../", import.meta.url));
export const MAIN = join(ROOT, "dist/cli/main.js");
export const NIGHTLY = join(ROOT, "test/fixtures/nightly.yaml");
export const LONG = join(ROOT, "test/cli/long.yaml");

/** Runs `act` with a folder of its own, which is gone afterwards. */
export async function inFolder(act) {
  const folder = mkdtempSync(join(tmpdir(), "gainscape-nightly-"));
  try {
    return await act(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const MINUTE = 60_000;

/** What is still running; none of it outlives the nightly run, whose signals do not reach it by themselves. */
const living = new Set();
process.on("exit", () => living.forEach(killed));
for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, () => process.exit(1));

/** Ends a child with all it started; one that is gone is gone. */
function killed(child) {
  try {
    process.kill(-child.pid, "SIGKILL");
  } catch (error) {
    if (error.code !== "ESRCH") throw error;
  }
}

/** A process and what becomes of it: code (null when killed) and all it wrote. Killed, and reported, after `limit` ms. */
function start(program, words, { env = {}, cwd = ROOT, limit = 10 * MINUTE } = {}) {
  const around = { cwd, env: { ...process.env, ...env }, stdio: ["ignore", "pipe", "pipe"], detached: true };
  const child = spawn(program, words, around);
  living.add(child);
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    killed(child);
  }, limit);
  let text = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding("utf8").on("data", (chunk) => {
      text += chunk;
    });
  }
  const ended = new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => {
      clearTimeout(timer);
      living.delete(child);
      if (late)
        reject(
          new Error(`${program} ${words.join(" ")} was killed after ${limit / MINUTE} minutes: ${text.slice(-2000)}`),
        );
      else resolve({ code, text });
    });
  });
  return { child, ended };
}

export const gainscape = (words, around) => start(process.execPath, [MAIN, ...words], around);

/** Runs to the end; throws where it does not end with the code. */
export async function expectCode(code, program, words, around) {
  const ended = await start(program, words, around).ended;
  if (ended.code !== code)
    throw new Error(`${program} ${words.join(" ")} ended with ${ended.code}: ${ended.text.slice(-2000)}`);
  return ended.text;
}

export const run = (words, around) => expectCode(0, process.execPath, [MAIN, ...words], around);

export const digestOf = (file) => createHash("sha256").update(readFileSync(file)).digest("hex");

export function expectSame(one, other, what) {
  if (one !== other) throw new Error(`${what}: ${one} is not ${other}`);
}
