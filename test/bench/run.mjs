// A whole run as a process of its own, started by word: plan, grid, search, map. Ready once its threads are warm.
import { planFor } from "../../dist/flow/plan.js";
import { readAirframe, readSweep } from "../../dist/flow/read.js";
import { simulate } from "../../dist/flow/simulate.js";

const SWEEP = "sweeps/first-tune.yaml";
const MODEL = "models/sandpiper-r1.yaml";
const provenance = { productVersion: "0", command: "bench", model: MODEL, sweep: SWEEP };

/** The shipped example over other lines of P and D, all scripts and conditions, or the named ones. */
function planOf({ p, d, scripts }) {
  const { value, document } = readSweep(SWEEP);
  const line = (values, points) => {
    const [from, to] = [values[0], values[values.length - 1]];
    return Array.from({ length: points }, (_, i) => from + ((to - from) * i) / (points - 1));
  };
  const lines = { p: line(value.grid.roll.p, p), d: line(value.grid.roll.d, d) };
  const grid = { roll: lines, pitch: lines };
  const wanted = value.scripts.filter((one) => scripts === undefined || scripts.includes(one.script.name));
  return planFor(readAirframe(MODEL), { document, value: { ...value, grid, scripts: wanted } });
}

process.on("message", async ({ grid, workers }) => {
  const plan = planOf(grid);
  const before = performance.now();
  const { figures } = await simulate(plan, { workers, provenance });
  const seconds = (performance.now() - before) / 1000;
  process.send({
    seconds,
    searchTrials: figures.trials - figures.gridTrials,
    ...figures,
    mebibytes: process.resourceUsage().maxRSS / 1024,
  });
  process.disconnect();
});
process.send("ready");
