// The tests of hostile input with twenty times the cases, a seed of the day, and little memory; and what by day is tried in part: seeds of a start, values in a plan.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expectCode, inFolder, ROOT } from "./command.mjs";

const { GAINSCAPE_CASES = "20000", GAINSCAPE_SEED = String(Math.floor(Date.now() / 86_400_000)) } = process.env;
const LIMIT = 4 * 60 * 60_000; // ms: 2 000 long trials of random craft take half an hour and more
/** MiB that the largest process may use at its peak: the test runner, its transforms and two threads of tests. */
const MOST = 1024;

export const step = () =>
  inFolder(async (home) => {
    const peaks = join(home, "peaks");
    const env = {
      GAINSCAPE_CASES,
      GAINSCAPE_SEED,
      GAINSCAPE_TRUTHS: "200",
      GAINSCAPE_PEAKS: peaks,
      NODE_OPTIONS: `--max-old-space-size=1024 --import=${new URL("peak.mjs", import.meta.url).href}`,
      NO_COLOR: "1",
    };
    const words = [
      "vitest",
      "run",
      "--config",
      "test/vitest.config.ts",
      "test/hostile",
      "test/flow/seeds.test.ts",
      "test/map/stored-plan.test.ts",
      "test/confidence/calibration.test.ts",
    ];
    const output = await expectCode(0, "npx", words, { cwd: ROOT, env, limit: LIMIT });
    const [, passed] = /Tests +(\d+ passed)/.exec(output) ?? [];
    const peak = Math.ceil(Math.max(...readFileSync(peaks, "utf8").trim().split("\n").map(Number)) / 1024);
    if (!(peak <= MOST)) throw new Error(`a process held ${peak} MiB, at most ${MOST} are allowed`);
    return `${passed}, ${GAINSCAPE_CASES} cases a share of one, seed ${GAINSCAPE_SEED}, at most ${peak} MiB held (${MOST} allowed)`;
  });
