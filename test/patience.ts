// How long a test may take before it counts as hung. No test asserts a time; this only ends what would never end.

/** Milliseconds that `work` takes on the machine the limits were set on, an AMD EPYC core with no other load. */
const REFERENCE = 240;
/** What the longest test takes there, many times over. */
const LIMIT = 600_000;

/** Sums and square roots that no engine leaves out. */
function work(): number {
  let sum = 0;
  for (let k = 1; k < 40_000_000; k++) sum += Math.sqrt(k) / (k + sum);
  return sum;
}

/** How many times slower this machine is now, at least 1. */
function slowness(): number {
  const start = performance.now();
  if (!(work() > 0)) throw new Error("no work was done");
  return Math.max(1, (performance.now() - start) / REFERENCE);
}

/** Milliseconds, measured once as the tests start; a nightly run of more cases than usual is given more. */
export const patience = (): number =>
  Math.ceil(slowness() * (LIMIT + 400 * Math.max(0, Number(process.env.GAINSCAPE_CASES ?? 0))));
