// Two maps in, drift and decision out. First: do they answer the same question?
import type { AllGates } from "../base/gates.js";
import { apartOf, apartWords } from "../map/apart.js";
import type { StabilityMap } from "../map/format.js";
import { type OwnScale, ownScale, sharedScale } from "../map/own-scale.js";
import { withoutFormat } from "../map/simulable.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { judgedAlike, unjudgedNote } from "./alike.js";
import type { Axis, AxisDrift, Drift, KeyChange, Side } from "./format.js";
import { judgeAxis, judgeStrip, outcomeOf } from "./judge.js";
import { levelShifts, variantShifts } from "./levels.js";
import { modelChanges } from "./model-changes.js";
import { nextTune } from "./next-tune.js";
import { drawNotes, pairedDraws, shiftIntervals, startInDraws } from "./paired-draws.js";
import { safeDrift, verdictDrift } from "./points.js";
import { gateJudgeOf, gatesOf, mapDifferences, planOf, tailsAgree } from "./question.js";
import { endOf, shiftLine } from "./shift.js";
import { stripCases } from "./strip-drift.js";
import { pinnedDrift, startDrift } from "./tunes.js";
import { whyOf } from "./why.js";

const AXES: readonly Axis[] = ["roll", "pitch"];

/** Facts that only the caller has. */
export interface CompareOptions {
  readonly productVersion: string;
  readonly command: string;
  readonly notes?: readonly string[];
}

/** The drift, judged by the candidate's gates; or the differences that forbid comparing the two. */
export function compareMaps(
  baseMap: StabilityMap,
  candidateMap: StabilityMap,
  { productVersion, command, notes = [] }: CompareOptions,
): Drift | { readonly differences: readonly KeyChange[] } {
  const differ = mapDifferences(baseMap, candidateMap);
  if (differ.length > 0) return { differences: differ };
  const { base, candidate, unjudged } = judgedAlike(baseMap, candidateMap);
  const gates = gatesOf(candidate);
  const alike = unjudged.length === 0;
  const axes = { roll: axisDrift("roll", base, candidate, alike), pitch: axisDrift("pitch", base, candidate, alike) };
  const how = { judge: gateJudgeOf(candidate), skippedFail: planOf(candidate).sweep.skippedGates === "fail" };
  const found = stripCases(base, candidate);
  const strips = found.flatMap((one) => ("drift" in one ? [one.drift] : []));
  const own = sharedScale(ownScale(base), ownScale(candidate));
  const results = [
    ...AXES.flatMap((axis) => judgeAxis(axis, axes[axis], gates, how)),
    ...found.flatMap((one) => judgeStrip(one, gates, how)),
  ];
  return {
    format: "gainscape.drift/2",
    product: { name: "gainscape", version: productVersion },
    command,
    sweep: { name: candidate.sweep.name, title: candidate.sweep.title },
    units: { p: candidate.units.p, d: candidate.units.d },
    own,
    base: sideOf(base),
    candidate: sideOf(candidate),
    outcome: outcomeOf(results),
    gates: results,
    unjudgedMeasures: unjudged,
    margins: wantedMargins(candidate),
    axes,
    ...(strips.length === 0 ? {} : { strips }),
    model: modelChanges(withoutFormat(base.model as object), withoutFormat(candidate.model as object)),
    why: whyOf(base, candidate, { axes, gates: results }),
    notes: [
      ...notes,
      ...unjudged.map(unjudgedNote),
      ...notesOn(base, candidate, gates),
      ...drawNotes(base, candidate),
      ...apartNotes(own, base, "before"),
      ...apartNotes(own, candidate, "now"),
    ],
  };
}

function axisDrift(axis: Axis, base: StabilityMap, candidate: StabilityMap, alike: boolean): AxisDrift {
  const draws = pairedDraws(axis, base, candidate);
  const ends = (map: StabilityMap) => map.axes[axis].boundary.sustained.map(endOf);
  return {
    shift: shiftLine(
      ends(base),
      ends(candidate),
      base.axes[axis].grid.p.at(-1) ?? 0,
      draws === null ? [] : shiftIntervals(draws),
    ),
    ...(draws === null
      ? {}
      : { paired: { draws: draws.length, start: alike ? startInDraws(axis, base, candidate, draws) : null } }),
    byLevel: levelShifts(axis, base, candidate),
    byVariant: variantShifts(axis, base, candidate),
    safe: safeDrift(base.axes[axis], candidate.axes[axis]),
    verdicts: verdictDrift(axis, base, candidate),
    start: startDrift(axis, base, candidate),
    pinned: pinnedDrift(axis, base, candidate),
    next: nextTune(axis, base, candidate),
  };
}

function sideOf({ airframe, product, provenance, plan }: StabilityMap): Side {
  const { digest } = plan as { digest: string };
  const { command, model, trials } = provenance;
  return { airframe, product: product.version, command, model, planDigest: digest, trials };
}

/** Notes on stable ranges apart from the one whose end is compared. */
function apartNotes(own: OwnScale | null, { axes }: StabilityMap, side: string): string[] {
  return AXES.flatMap((axis) => {
    const [first, ...more] = apartOf(axes[axis]);
    if (first === undefined) return [];
    const rest = more.length === 0 ? "" : `, and ${more.length} more`;
    return [
      `A stable range of P lies apart from the one compared, ${axis} ${side}: ${apartWords(own, first, axes[axis].grid.p)}${rest}.`,
    ];
  });
}

function notesOn(base: StabilityMap, candidate: StabilityMap, gates: AllGates): string[] {
  const notes: string[] = [];
  const [before, after] = [base.product.version, candidate.product.version];
  if (before !== after)
    notes.push(
      `Made by different versions, ${before} and ${after}: a shift may come from the program, not from the craft.`,
    );
  if (base.airframe.name !== candidate.airframe.name)
    notes.push(`Two crafts, not two versions of one: ${base.airframe.name} and ${candidate.airframe.name}.`);
  if (!tailsAgree(base, candidate))
    notes.push(
      "Tails differ between the two: an oscillation too slow for the shorter ones shows on one side alone. gainscape compare SWEEP --from MODEL --to MODEL gives both the longer ones.",
    );
  for (const [side, map] of [
    ["base", base],
    ["candidate", candidate],
  ] as const)
    if (map.unsealed)
      notes.push(
        `The ${side} was changed by hand after it was made: its seal is broken, and --unsealed took it all the same.`,
      );
  const baseGates = gatesOf(base);
  const others = Object.keys(gates).some((id) => gates[id as keyof AllGates] !== baseGates[id as keyof AllGates]);
  if (others || gateJudgeOf(base) !== gateJudgeOf(candidate))
    notes.push("The gates differ between the two; those of the candidate are applied.");
  return notes;
}
