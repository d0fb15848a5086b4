// Before all tests: builds dist where a source file is newer than what was built from it.
import { execFileSync } from "node:child_process";
import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";

const BUILT = "dist/cli/main.js";

export default function build(): void {
  if (newest("src") <= changed(BUILT)) return;
  try {
    execFileSync("npm", ["run", "--silent", "build"], {
      stdio: ["ignore", "pipe", "pipe"],
      encoding: "utf8",
      shell: process.platform === "win32",
    });
  } catch (error) {
    // A fault of types still builds, and stops `npm test` before it comes here; without a build nothing can be tested.
    const { stdout } = error as { stdout: string };
    process.stderr.write(`The build complains:\n${stdout}\n`);
    if (newest("src") > changed(BUILT)) throw error;
  }
}

const changed = (file: string): number => statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;

const newest = (folder: string): number =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).reduce(
    (latest, file) => Math.max(latest, changed(join(folder, file))),
    0,
  );
