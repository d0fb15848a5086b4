// What a sweep came to, as plain data for programs.
import type { Effect } from "../compare/effect-format.js";
import type { AxisMap, StabilityMap } from "../map/format.js";
import { type Sure, sureOf } from "../map/sure.js";
import { findingWords } from "../words/finding-words.js";
import { firstToMeasure } from "../words/worth-words.js";
import type { ChangedMaps } from "./changes.js";
import type { EffectFiles } from "./paths.js";
import type { MapResult } from "./run-map.js";
import type { ReportFiles } from "./write.js";

export type SweepOutcome = ReturnType<typeof sweepOutcome>;

/** Those that are there. */
export type SweepFiles = Partial<ReportFiles & EffectFiles>;

export const sweepOutcome = (
  { map, figures, unchanged }: MapResult,
  files: SweepFiles,
  changed: ChangedMaps | null,
) => ({
  airframe: map.airframe,
  sweep: map.sweep,
  ...(map.uncertaintyReason === undefined ? {} : { uncertaintyReason: map.uncertaintyReason }),
  roll: axisOutcome(map, map.axes.roll),
  pitch: axisOutcome(map, map.axes.pitch),
  ...(changed === null ? {} : { effects: changed.effects.effects.map(effectOutcome) }),
  files,
  figures,
  unchanged,
});

/** Without its map, which is in effects.json. */
function effectOutcome(effect: Effect) {
  const { map: _, ...found } = effect.found ?? { map: null };
  const finding = findingWords(effect).replaceAll("\u00a0", " ");
  return { ...effect, found: effect.found === null ? null : found, finding };
}

/** The start and its ground; where the map was made with draws, how sure they are. */
function axisOutcome(map: StabilityMap, axis: AxisMap) {
  const { start, startReason, startCauses, safeShare } = axis;
  const sure = sureOf(map, axis);
  const of = { start, startReason, startCauses, safeShare };
  return sure === null ? of : { ...of, confidence: confidenceOutcome(sure) };
}

const confidenceOutcome = ({ confidence, start, safeShare, worth }: Sure) => ({
  confidence,
  start,
  safeShare,
  measureFirst: firstToMeasure(worth),
});
