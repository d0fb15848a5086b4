// Two maps judged by the measures that both know: where one is older than a measure, the other's limit for it is dropped,
// and the points which that limit alone had decided are judged again.
import { at } from "../base/at.js";
import { MEASURES, type MeasureId, measureOf, VERDICTS } from "../base/measures.js";
import { NOBODY } from "../map/decider.js";
import { tightest } from "../map/field.js";
import type { AxisMap, PinnedPoint, StabilityMap } from "../map/format.js";
import { unknownMeasures } from "../map/older-measures.js";
import { judge, slack } from "../map/verdict.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { surroundingsOn } from "../map/way-out.js";
import type { UnjudgedMeasure } from "./format.js";
import { fieldOfMap, worstCases } from "./inside.js";

export interface Alike {
  readonly base: StabilityMap;
  readonly candidate: StabilityMap;
  /** Measures with a limit on one side that the other does not know. */
  readonly unjudged: readonly UnjudgedMeasure[];
}

export function judgedAlike(base: StabilityMap, candidate: StabilityMap): Alike {
  const [olderBase, olderCandidate] = [unknownMeasures(base), unknownMeasures(candidate)];
  const unjudged = MEASURES.filter(({ argues }) => argues !== null).flatMap(({ id }): UnjudgedMeasure[] => {
    if (olderBase.includes(id)) return candidate.limits[id] === null ? [] : [{ measure: id, unknownTo: "base" }];
    if (olderCandidate.includes(id)) return base.limits[id] === null ? [] : [{ measure: id, unknownTo: "candidate" }];
    return [];
  });
  return {
    base: withoutLimits(base, olderCandidate),
    candidate: withoutLimits(candidate, olderBase),
    unjudged,
  };
}

/** "Bounce-back is not judged: the base was made before this measure was known." */
export const unjudgedNote = ({ measure, unknownTo }: UnjudgedMeasure): string =>
  `${measureOf(measure).title} is not judged: the ${unknownTo} is an older map, made before this measure was known.`;

function withoutLimits(map: StabilityMap, ids: readonly MeasureId[]): StabilityMap {
  const dropped = ids.filter((id) => map.limits[id] !== null);
  if (dropped.length === 0) return map;
  const limits = { ...map.limits, ...Object.fromEntries(dropped.map((id) => [id, null])) };
  const looser = { ...map, limits };
  const axis = (name: "roll" | "pitch") => judgedAgain(map, looser, map.axes[name], dropped);
  return { ...looser, axes: { roll: axis("roll"), pitch: axis("pitch") } };
}

/** The axis under fewer limits: points inside the dropped ones stay as they are. */
function judgedAgain(map: StabilityMap, looser: StabilityMap, axis: AxisMap, dropped: readonly MeasureId[]): AxisMap {
  const { p } = axis.grid;
  const cases = worstCases(axis);
  const field = fieldOfMap(looser, axis);
  const sustainedBy = axis.verdict.flatMap((row, i) =>
    row.map((verdict, j) => (verdict === "sustained" ? (axis.decidedBy[i]?.[j] ?? NOBODY) : NOBODY)),
  );
  const around = surroundingsOn(p.length, cases, sustainedBy);
  const points = cases.map((worst, point) => {
    const [i, j] = [Math.floor(point / p.length), point % p.length];
    const was = {
      verdict: axis.verdict[i]?.[j] ?? VERDICTS[0],
      reasons: axis.reasons[i]?.[j] ?? 0,
      decidedBy: axis.decidedBy[i]?.[j] ?? NOBODY,
      safe: axis.safe[i]?.[j] === true,
    };
    const counted = dropped.some((id) => (slack(measureOf(id), worst[id], map.limits[id]) ?? 0) < 0);
    if (!counted || was.verdict === "sustained") return was;
    const { verdict, reasons } = judge(worst, NOBODY, looser.limits, around(point));
    const safe = verdict === "clean" && tightest(field, j, i).room >= 0;
    return { verdict, reasons, decidedBy: verdict === was.verdict ? was.decidedBy : NOBODY, safe };
  });
  const table = <T>(of: (point: (typeof points)[number]) => T) =>
    axis.verdict.map((row, i) => row.map((_, j) => of(at(points, i * p.length + j))));
  const safe = table((point) => point.safe);
  const pinned = axis.pinned === undefined ? undefined : pinnedAgain(looser, axis.pinned);
  return {
    ...axis,
    verdict: table((point) => point.verdict),
    reasons: table((point) => point.reasons),
    decidedBy: table((point) => point.decidedBy),
    safe,
    safeShare: safe.flat().filter(Boolean).length / points.length,
    ...(pinned === undefined ? {} : { pinned }),
  };
}

/** Clean where every measure that still has a limit is inside it; else its verdict stands. */
function pinnedAgain(looser: StabilityMap, pinned: PinnedPoint): PinnedPoint {
  const judged = MEASURES.filter(({ id, argues }) => argues !== null && looser.limits[id] !== null);
  const inside = judged.every((measure) => {
    const value = pinned.measures[measure.id] ?? null;
    return value !== null && (slack(measure, { value, absent: 0, variant: -1 }, looser.limits[measure.id]) ?? 0) >= 0;
  });
  if (pinned.verdict === "clean" || pinned.verdict === "sustained" || !inside) return pinned;
  const { gain, phase } = wantedMargins(looser);
  const { gainUp, gainDown, phase: margin } = pinned.margins;
  const safe = (gainUp ?? gain) >= gain && (gainDown ?? gain) >= gain && margin > 0 && margin >= phase;
  return { ...pinned, verdict: "clean", decidedBy: null, safe };
}
