// The library's face: the same flow the command line runs, as typed functions.
//
//   const sweep = readSweep("sweeps/first-tune.yaml");
//   const model = readAirframe(modelOf(sweep));
//   const { answer, points } = firstAnswerFor(model, sweep); // by theory alone
//   const plan = planFor(model, sweep, undefined, points);
//   const { map } = await simulate(plan, { workers: 2, provenance });
//   await writeReport(map, "reports/mine");
//   const { drift } = compare({ name: "base", map: readMap("reports/theirs") }, { name: "mine", map }, { command: "" });
export type { Airframe } from "./airframe/airframe.js";
export { DEFAULT_GATES, GATES, type Gate, type GateId, type Gates } from "./base/gates.js";
export { MEASURES, type Measure, type MeasureId, VERDICTS, type Verdict } from "./base/measures.js";
export { InputError, type Problem } from "./base/problem.js";
export { version } from "./base/version.js";
export type { AxisDrift, Drift, GateResult } from "./compare/format.js";
export { writeBaseline } from "./flow/baseline.js";
export { type CacheOptions, openCache, type TrialCache } from "./flow/cache.js";
export { type Comparison, type ComparisonFiles, compare, type NamedMap, writeComparison } from "./flow/compare.js";
export { firstAnswerFor } from "./flow/first-answer.js";
export { outputFolder } from "./flow/output.js";
export { pageScript } from "./flow/page-script.js";
export { planFor } from "./flow/plan.js";
export { modelOf, readAirframe, readSweep, type WithDocument as Read } from "./flow/read.js";
export { readMap } from "./flow/read-map.js";
export { type SimulateOptions, simulate } from "./flow/simulate.js";
export { parseSweepLine, type SweepLine } from "./flow/sweep-lines.js";
export type { Progress, RunFigures } from "./flow/tracked-runs.js";
export { type ReportFiles, writeReport } from "./flow/write.js";
export type { FirstAnswer, FirstStart } from "./map/first-answer.js";
export type { AxisMap, StabilityMap, StartingTune } from "./map/format.js";
export type { Plan, Variant } from "./plan/plan.js";
export {
  renderCard,
  renderComparison,
  renderCsv,
  renderDriftMarkdown,
  renderDriftTable,
  renderJunit,
  renderPage,
  renderSheet,
  renderStripsCsv,
  renderSummary,
} from "./report/index.js";
export { RunIncomplete } from "./run/incomplete.js";
export type { Sheet, SheetWarning } from "./sheet/format.js";
export { sheetOf } from "./sheet/sheet.js";
export type { Script, Sweep } from "./sweep/sweep.js";
