// The command line as a process, for the steps of the night.
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
  const folder = mkdtempSync(join(tmpdir(), "gainscape-night-"));
  try {
    return await act(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A process and what becomes of it: code (null when killed) and all it wrote. */
function start(program, words, { env = {}, cwd = ROOT } = {}) {
  const child = spawn(program, words, { cwd, env: { ...process.env, ...env }, stdio: ["ignore", "pipe", "pipe"] });
  let text = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding("utf8").on("data", (part) => {
      text += part;
    });
  }
  const ended = new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, text }));
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
