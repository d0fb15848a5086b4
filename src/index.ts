// The library's face: the same flow the command line runs, as typed functions.
//
//   const sweep = readSweep("sweeps/first-tune.yaml");
//   const model = readAirframe(modelOf(sweep));
//   const plan = planFor(model, sweep);
//   const { map } = await simulate(plan, { workers: 2, provenance });
//   await writeReport(map, "reports/mine");
export type { Airframe } from "./airframe/airframe.js";
export { MEASURES, VERDICTS, type Measure, type MeasureId, type Verdict } from "./base/measures.js";
export { InputError, type Problem } from "./base/problem.js";
export { version } from "./base/version.js";
export { planFor } from "./flow/plan.js";
export { modelOf, type Read, readAirframe, readSweep } from "./flow/read.js";
export { type Progress, type RunFigures, simulate, type SimulateOptions } from "./flow/simulate.js";
export { outputFolder, type ReportFiles, writeReport } from "./flow/write.js";
export type { AxisMap, StabilityMap, StartingTune } from "./map/format.js";
export type { Plan, Variant } from "./plan/plan.js";
export { renderCsv, renderPage, renderSummary } from "./report/index.js";
export { RunIncomplete } from "./run/runner.js";
export type { Script, Sweep } from "./sweep/sweep.js";
