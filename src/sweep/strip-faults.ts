// Faults of the strips a sweep asks for.
import type { MeasureId } from "../base/measures.js";
import type { Path } from "../base/problem.js";
import { SCRIPT_KINDS } from "../base/script-kinds.js";
import { STRIP_MEASURES, type StripKind } from "../base/strip-measures.js";
import type { Script } from "./sweep.js";
import type { Report } from "./sweep-faults.js";

/** Scripts that a strip needs to say anything: one that stops, and for I one in which something drifts. */
export function stripFaults(kind: StripKind, scripts: readonly (Script | null)[], path: Path, report: Report): void {
  if (scripts.includes(null)) return; // reported where it is named
  const shown = new Set(scripts.flatMap((script) => (script === null ? [] : SCRIPT_KINDS[script.kind].measures)));
  for (const { reads, title } of STRIP_MEASURES[kind])
    if (!shown.has(reads) && HINTS[kind][reads] !== undefined)
      report(path, `none of them shows the ${title.toLowerCase()}: add ${HINTS[kind][reads]}`);
  for (const axis of kind === "yaw" ? [] : (["roll", "pitch"] as const))
    if (!scripts.some((script) => script?.axes.includes(axis))) report(path, `none of them tests ${axis}`);
}

/** What shows a measure without which a strip has no lower or no upper end. */
const HINTS: Readonly<Record<StripKind, Readonly<Partial<Record<MeasureId, string>>>>> = {
  yaw: { rise: "{use: yaw-stop, rates: [300 deg/s]}", kick: "{use: punch-out}" },
  i: { kick: "{use: lasting-gust}", overshoot: "{use: roll-stop, rates: [500 deg/s]}" },
};
