// What a simulated step costs in the vector kernel built in the folder this is started in, which may be an earlier version: with
// many trials at once, with one alone, and with a controller that has everything on. Prints ns a step as JSON.
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { least } from "./figures.mjs";

const built = (module) => import(pathToFileURL(resolve("dist", module)));
const { planFor } = await built("flow/plan.js");
const { readAirframe, readSweep } = await built("flow/read.js");
const { loadVectorKernel } = await built("kernel/load-vector.js");
const { rigOf } = await built("kernel/rig.js");
const { simulateManyOf } = await built("kernel/simulate-trial.js");
const { kernelShapeOf } = await built("kernel/vector.js");
const { questionOf } = await built("run/question.js");

/** How to take ns a step of one call with so many points of a model's grid. */
function timer(model, sweep) {
  const plan = planFor(readAirframe(model), readSweep(sweep));
  const variant = plan.variants.find(({ script }) => script.kind === "stop");
  const rig = rigOf(plan, variant);
  const { window } = questionOf(variant, rig);
  const simulateMany = simulateManyOf(rig, loadVectorKernel(kernelShapeOf?.(rig) ?? rig.shape));
  const { p, d } = plan.sweep.grid.roll;
  const strewn = (line, by, points) => Float64Array.from({ length: points }, (_, i) => line[(i * by) % line.length]);
  return (points) => {
    const gains = { p: strewn(p, 7, points), d: strewn(d, 5, points) };
    const before = process.hrtime.bigint();
    simulateMany(gains, window, () => {});
    return Number(process.hrtime.bigint() - before) / (points * rig.steps);
  };
}

const plain = timer("models/sandpiper-r1.yaml", "sweeps/first-tune.yaml");
const EVERYTHING_ON = "models/curlew-r2.yaml";
/** An earlier version may know no such controller. */
const extended = existsSync(EVERYTHING_ON) ? timer(EVERYTHING_ON, "sweeps/what-each-buys.yaml") : null;
const times = { many: [], alone: [], extended: [] };
for (let round = 0; round < 40; round++) {
  times.many.push(plain(64));
  times.alone.push(plain(1));
  if (extended !== null) times.extended.push(extended(64));
}
const found = Object.entries(times).map(([name, all]) => [name, all.length === 0 ? null : least(all)]);
console.log(JSON.stringify(Object.fromEntries(found)));
