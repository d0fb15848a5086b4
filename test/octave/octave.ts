// One run of GNU Octave for all questions; null where it is not installed.
import { execFile, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";

/** Octave with its control and signal packages answers. */
export function hasOctave(): boolean {
  const words = ["--no-gui", "--norc", "--quiet", "--eval", "pkg load control signal"];
  return spawnSync("octave", words, { stdio: "ignore" }).status === 0;
}

/** Waits without holding the thread: a test runner takes one that says nothing for a minute for lost. */
export async function answersTo<T>(questions: unknown): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "gainscape-octave-"));
  try {
    const [questionFile, answered] = [join(folder, "asked.json"), join(folder, "answered.json")];
    writeFileSync(questionFile, JSON.stringify(questions));
    const words = [
      "--no-gui",
      "--norc",
      "--quiet",
      "--path",
      "test/octave",
      "test/octave/oracle.m",
      questionFile,
      answered,
    ];
    // Threads cost more than they bring on matrices of forty rows.
    const env = { ...process.env, OPENBLAS_NUM_THREADS: "1", OMP_NUM_THREADS: "1" };
    await promisify(execFile)("octave", words, { env });
    return JSON.parse(readFileSync(answered, "utf8")) as T;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
