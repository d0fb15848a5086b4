// From a checked sweep file and the scripts it names to the frozen Sweep.
import { dirname, isAbsolute, join } from "node:path";
import { check } from "../base/check.js";
import { type Document, problemAt } from "../base/document.js";
import { deepFreeze } from "../base/freeze.js";
import { GATES, type Gates, MAP_GATES } from "../base/gates.js";
import { MEASURES, type MeasureId } from "../base/measures.js";
import { type Path, type Problem, Problems } from "../base/problem.js";
import type { StripKind } from "../base/strip-measures.js";
import { requestedGrid } from "./grid.js";
import { gridFaults } from "./grid-faults.js";
import { type ReadStrip, resolvedStrip } from "./resolve-strip.js";
import { allowedIn, gateKey, JUDGED, limitKey, type SweepFile, sweepSchema } from "./schema.js";
import { parseScript, varies } from "./script.js";
import { stripFaults } from "./strip-faults.js";
import type { Condition, RequestedSweep, Script, ScriptUse, SweepChange, Uncertainty } from "./sweep.js";
import {
  axisFaults,
  changeFaults,
  gateFaults,
  nameFaults,
  pinnedFaults,
  type Report,
  sizeFaults,
  twiceUsed,
} from "./sweep-faults.js";

/** The path of a file that a sweep names, relative to the sweep file. */
export const pathFromSweep = (sweepFile: string, named: string): string =>
  isAbsolute(named) ? named : join(dirname(sweepFile), named);

/** Reads the document of a script; `name` where the sweep names it without a path. May throw InputError. */
export type OpenScript = (path: string, name?: string) => Document;

/** The sweep of a document. InputError with every problem found, those of the scripts included. */
export function parseSweep(document: Document, open: OpenScript): RequestedSweep {
  const file = check(sweepSchema, document);
  const problems = new Problems();
  const report = (path: Path, message: string): void => problems.add(problemAt(document, path, message));
  gridFaults(file, report);
  nameFaults(file, report);
  pinnedFaults(file, report);
  gateFaults(file, report);
  changeFaults(file, report);
  const opened = (uses: readonly UseFile[], path: Path) =>
    uses.map((use, at) => scriptOf(use.use, [...path, at], document, open, problems));
  const usesOf = (uses: readonly UseFile[], path: Path, found: readonly (Script | null)[]) =>
    found.flatMap((script, at) => (script === null ? [] : [useOf(uses[at], script, [...path, at], report)]));
  const scripts = opened(file.scripts, ["scripts"]);
  const uses = usesOf(file.scripts, ["scripts"], scripts);
  const strips = STRIP_KINDS.flatMap((kind) => {
    const asked = file.strips?.[kind];
    if (asked === undefined) return [];
    const path = ["strips", kind, "scripts"];
    const found = opened(asked.scripts, path);
    stripFaults(kind, found, path, report);
    return [[kind, { ...asked, scripts: usesOf(asked.scripts, path, found) }] as const];
  });
  twiceUsed(scripts, report);
  axisFaults(scripts, report);
  sizeFaults(file, uses, report);
  problems.throwIfAny();
  return deepFreeze(resolved(file, uses, strips));
}

type UseFile = SweepFile["scripts"][number];

const STRIP_KINDS: readonly StripKind[] = ["yaw", "i"];

/** The script a use names, or null with its problems added. */
function scriptOf(named: string, path: Path, document: Document, open: OpenScript, problems: Problems): Script | null {
  const isPath = named.includes("/") || named.endsWith(".yaml");
  // a script that cannot be opened is a fault of the line that names it
  const ours = (p: Problem): Problem =>
    p.line > 0 ? p : problemAt(document, [...path, "use"], `${p.file}: ${p.message}`);
  const file = pathFromSweep(document.file, isPath ? named : `scripts/${named}.yaml`);
  return problems.attempt(() => parseScript(isPath ? open(file) : open(file, named)), ours);
}

function useOf({ throttle, rates }: Partial<UseFile> = {}, script: Script, path: Path, report: Report): ScriptUse {
  const follows = varies(script);
  if (follows.rate && rates === undefined)
    report(path, `"${script.name}" commands the swept rate: add rates, a list of angular rates (unit: deg/s or rad/s)`);
  if (!follows.rate && rates !== undefined)
    report([...path, "rates"], `"${script.name}" commands no swept rate; leave the rates out`);
  if (!follows.throttle && throttle !== undefined)
    report([...path, "throttle"], `"${script.name}" has a throttle of its own; leave the levels out`);
  return { script, throttle: throttle ?? ["hover"], rates: rates ?? [0] };
}

function resolved(file: SweepFile, scripts: readonly ScriptUse[], strips: readonly ReadStrip[]): RequestedSweep {
  const defaulted: string[] = [];
  const assume: Assume = (given, fallback, line) => {
    if (given === undefined) defaulted.push(line);
    return given ?? fallback;
  };
  const limits = limitsOf(file.limits ?? {}, assume);
  return {
    name: file.name,
    title: file.title,
    model: file.model ?? null,
    seed: assume(file.seed, 1, "seed: 1"),
    grid: requestedGrid(file.grid),
    scripts,
    ...(file.trials === "all" ? { everyTrial: true as const } : {}),
    conditions: file.conditions.map(conditionOf),
    limits,
    margins: {
      gain: assume(file.margins?.gain, 6, "margins.gain: 6 dB, as SAE AS94900 is commonly quoted"),
      phase: assume(file.margins?.phase, Math.PI / 4, "margins.phase: 45 deg, as SAE AS94900 is commonly quoted"),
    },
    boundaryTolerance: assume(file.boundary_tolerance, 0.005, "boundary_tolerance: 0.5 %"),
    ...(file.uncertainty === undefined ? {} : { uncertainty: uncertaintyOf(file.uncertainty, assume) }),
    ...(strips.length === 0
      ? {}
      : { strips: Object.fromEntries(strips.map((one) => resolvedStrip(one, limits, assume))) }),
    pinned: file.pinned ?? null,
    gates: gatesOf(allowedIn(file), strips.length > 0),
    ...(file.gates?.judge === "lower" ? { gateJudge: "lower" as const } : {}),
    ...(file.gates?.skipped === "fail" ? { skippedGates: "fail" as const } : {}),
    baseline: file.baseline === undefined ? null : { ...file.baseline, model: file.baseline.model ?? null },
    ...(file.changes === undefined ? {} : { changes: file.changes.map(changeOf) }),
    defaulted,
  };
}

const changeOf = ({ without, with: put = "", set }: NonNullable<SweepFile["changes"]>[number]): SweepChange =>
  without === undefined ? { kind: "with", name: put, set } : { kind: "without", name: without, set };

type Assume = <T>(given: T | undefined, fallback: T, line: string) => T;

/** Ten per cent of loop gain: ours, no source. */
function uncertaintyOf(given: NonNullable<SweepFile["uncertainty"]>, assume: Assume): Uncertainty {
  return {
    draws: assume(given.draws, 64, "uncertainty.draws: 64"),
    confidence: assume(given.confidence, 0.95, "uncertainty.confidence: 95 %"),
    loopGain: assume(given.loop_gain, 0.1, "uncertainty.loop_gain: 10 %, for what is not modelled"),
  };
}

/** A gate left out holds at its default: no part of what is simulated, so no assumption of the map. */
function gatesOf(given: ReturnType<typeof allowedIn>, withStrips: boolean): Gates {
  const allowed = (withStrips ? GATES : MAP_GATES).map((gate) => [
    gate.id,
    given[gateKey(gate)] === undefined ? gate.allowed : given[gateKey(gate)],
  ]);
  return Object.fromEntries(allowed) as Gates;
}

function conditionOf({ name, charge, payload, altitude = 0, temperature }: SweepFile["conditions"][number]): Condition {
  const [x = 0, y = 0, z = 0] = payload?.at ?? [];
  return {
    name,
    charge,
    payload: payload === undefined ? null : { mass: payload.mass, at: [x, y, z] },
    altitude,
    temperature: temperature ?? null,
  };
}

function limitsOf(
  given: NonNullable<SweepFile["limits"]>,
  assume: (given: number | null | undefined, fallback: number | null, line: string) => number | null,
): Record<MeasureId, number | null> {
  const limits = JUDGED.map(({ id, limit, unit }) => {
    const key = limitKey(id);
    // none is a limit given: null, not left out
    const value =
      given[key] === null
        ? null
        : assume(given[key], limit, `limits.${key}: ${limit ?? "none"} ${unit === "1" ? "" : unit}`.trim());
    return [id, value] as const;
  });
  const none = MEASURES.map(({ id }) => [id, null] as const);
  return Object.fromEntries([...none, ...limits]) as Record<MeasureId, number | null>;
}
