// The tests of hostile input with twenty times the cases, a seed of the day, and little memory.
import { expectCode, ROOT } from "./command.mjs";

const { GAINSCAPE_CASES = "20000", GAINSCAPE_SEED = String(Math.floor(Date.now() / 86_400_000)) } = process.env;

export async function step() {
  const env = { GAINSCAPE_CASES, GAINSCAPE_SEED, NODE_OPTIONS: "--max-old-space-size=1024", NO_COLOR: "1" };
  const told = await expectCode(0, "npx", ["vitest", "run", "test/hostile"], { cwd: ROOT, env });
  const [, passed] = /Tests +(\d+ passed)/.exec(told) ?? [];
  return `${passed}, ${GAINSCAPE_CASES} cases a share of one, seed ${GAINSCAPE_SEED}, at most 1 GiB of objects`;
}
