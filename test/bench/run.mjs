// A whole run as a process of its own, started by word: plan, grid, search, map. Ready once its threads are warm. Runs what is
// built in the folder it is started in, which may be an earlier version.
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";

const built = (module) => import(pathToFileURL(resolve("dist", module)));
const { D_UNIT, P_UNIT } = await built("base/units.js");
const { planFor } = await built("flow/plan.js");
const { readAirframe, readSweep } = await built("flow/read.js");
const { simulate } = await built("flow/simulate.js");
const { gridTheory } = await built("map/grid-theory.js");

const SWEEP = "sweeps/first-tune.yaml";
const MODEL = "models/sandpiper-r1.yaml";
const provenance = { productVersion: "0", command: "bench", model: MODEL, sweep: SWEEP };

/** The ends of the even lines that every figure of earlier versions was taken on, and of lines that reach far into sustained ground. */
const ENDS = { p: [2, 64], d: [0, 4.65] };
const FAR_ENDS = { p: [2, 150], d: [0, 12] };

/**
 * The shipped example over even lines of P and D, all scripts and conditions, or the named ones, with so many draws. Without
 * its strips, which earlier versions had not. `shipped`: as it is, on lines of its own, strips and draws included. `far`: lines
 * that reach far. Every trial is simulated, as in earlier versions, but where `leaveOut` says that nudges may settle points.
 */
function planOf({ p, d, scripts, draws, shipped, far, leaveOut }, model) {
  const { value, document } = readSweep(SWEEP);
  if (shipped) return planFor(model, { document, value });
  const line = ([from, to], unit, points) =>
    Array.from({ length: points }, (_, i) => (from + ((to - from) * i) / (points - 1)) * unit);
  const ends = far ? FAR_ENDS : ENDS;
  const lines = { p: line(ends.p, P_UNIT, p), d: line(ends.d, D_UNIT, d) };
  const grid = { roll: lines, pitch: lines };
  const wanted = value.scripts.filter((one) => scripts === undefined || scripts.includes(one.script.name));
  const uncertainty = { ...value.uncertainty, draws };
  const { uncertainty: _, strips: __, ...exact } = value;
  const asked = draws === undefined ? exact : { ...exact, uncertainty };
  const every = leaveOut ? {} : { everyTrial: true };
  return planFor(model, { document, value: { ...asked, ...every, grid, scripts: wanted } });
}

/** Seconds of processor from a model to what theory says of the grid, on a plan of its own. */
async function theoryAlone(grid, model) {
  const before = process.cpuUsage();
  const plan = planOf(grid, model);
  for (const axis of ["roll", "pitch"]) await gridTheory(plan, axis, async () => {});
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

process.on("message", async ({ grid, workers, theory }) => {
  const model = readAirframe(MODEL);
  const theorySeconds = theory ? await theoryAlone(grid, model) : null;
  const began = process.cpuUsage();
  const plan = planOf(grid, model);
  const before = performance.now();
  const { figures } = await simulate(plan, { workers, provenance, model: model.document });
  const seconds = (performance.now() - before) / 1000;
  const { user, system } = process.cpuUsage(began);
  process.send({
    seconds,
    theorySeconds,
    processorSeconds: (user + system) / 1e6,
    searchTrials: figures.trials - figures.gridTrials,
    ...figures,
    mebibytes: process.resourceUsage().maxRSS / 1024,
  });
  process.disconnect();
});
process.send("ready");
