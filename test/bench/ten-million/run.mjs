// Ten million trials in draws, on what is built: node test/bench/ten-million/run.mjs. Takes ten minutes and more on two cores, so that
// it is no part of `npm run bench`. What it took goes into result.json; with a number of draws behind it, only to the terminal.
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { changedModel } from "../../../dist/flow/changed-model.js";
import { planFor } from "../../../dist/flow/plan.js";
import { readAirframe, readSweep } from "../../../dist/flow/read.js";
import { simulate } from "../../../dist/flow/simulate.js";

const SWEEP = "test/bench/ten-million/sweep.yaml";
const MODEL = "models/sandpiper-r1.yaml";
/** A quarter of the craft's own, for as many fewer steps a trial. */
const SLOWER = "controller.rate=1 kHz";

const { value, document } = readSweep(SWEEP);
const draws = Number(process.argv[2] ?? value.uncertainty.draws);
const model = changedModel(readAirframe(MODEL), [SLOWER]);
const plan = planFor(model, { document, value: { ...value, uncertainty: { ...value.uncertainty, draws } } });
const { p, d } = plan.sweep.grid.roll;

const began = performance.now();
const { map, figures } = await simulate(plan, {
  workers: 2,
  provenance: { productVersion: "0", command: "bench", model: MODEL, sweep: SWEEP },
  model: model.document,
});
const { user, system } = process.cpuUsage();
const leftOut = map.axes.roll.confidence.leftOut.trials + map.axes.pitch.confidence.leftOut.trials;
const results = {
  machine: `${cpus()[0]?.model.trim() ?? "unknown processor"}, ${cpus().length} cores`,
  node: process.version,
  draws,
  points: p.length * d.length,
  variants: plan.variants.length,
  trials: figures.trials,
  leftOut,
  seconds: (performance.now() - began) / 1000,
  processorSeconds: (user + system) / 1e6,
  mebibytes: process.resourceUsage().maxRSS / 1024,
};
const text = `${JSON.stringify(results, null, 2)}\n`;
process.stdout.write(text);
if (process.argv[2] === undefined) writeFileSync(new URL("./result.json", import.meta.url), text);
