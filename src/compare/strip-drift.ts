// What moved of yaw's P and of I: the gain to take and the range that passes, where both maps judged the gain.
import { canonicalJson } from "../base/canonical.js";
import type { StabilityMap } from "../map/format.js";
import type { Strip } from "../map/strip-format.js";
import type { StripDrift, StripGateResult, StripSide, StripSkip } from "./format.js";
import { change } from "./shift.js";

/** A gain that a side judged, and what moved of it, or why that cannot be said. */
export type StripCase = Pick<StripGateResult, "axis"> &
  ({ readonly drift: StripDrift } | { readonly skipReason: StripSkip });

interface Judged extends Pick<StripDrift, "gain">, Pick<StripGateResult, "axis"> {
  readonly unit: "p" | "i";
  readonly of: (map: StabilityMap) => Strip | undefined;
}

const JUDGED: readonly Judged[] = [
  { gain: "Yaw P", axis: "yaw", unit: "p", of: ({ strips }) => strips?.yaw },
  { gain: "Roll I", axis: "roll", unit: "i", of: ({ strips }) => strips?.i?.roll },
  { gain: "Pitch I", axis: "pitch", unit: "i", of: ({ strips }) => strips?.i?.pitch },
];

/** None where neither side judged any. */
export function stripCases(base: StabilityMap, candidate: StabilityMap): StripCase[] {
  return JUDGED.flatMap(({ gain, axis, unit, of }): StripCase[] => {
    const [before, after] = [of(base), of(candidate)];
    if (before === undefined && after === undefined) return [];
    if (before === undefined) return [{ axis, skipReason: "no strip before" }];
    if (after === undefined) return [{ axis, skipReason: "no strip now" }];
    if (!isSameQuestion(before, after)) return [{ axis, skipReason: "strips of other limits or scripts" }];
    return [{ axis, drift: stripDrift(gain, candidate.units[unit], before, after) }];
  });
}

const isSameQuestion = (one: Strip, other: Strip): boolean =>
  canonicalJson([one.limits, one.titles]) === canonicalJson([other.limits, other.titles]);

function stripDrift(gain: StripDrift["gain"], unit: string, base: Strip, candidate: Strip): StripDrift {
  const [before, after] = [sideOf(base), sideOf(candidate)];
  return {
    gain,
    unit,
    oneUnit: base.oneUnit === candidate.oneUnit ? candidate.oneUnit : null,
    before,
    after,
    choicePercent: percent(before.choice, after.choice),
    fromPercent: percent(before.range?.from, after.range?.from),
    toPercent: upperEnd(before.range, after.range),
  };
}

const sideOf = ({ declared, choice, range }: Strip): StripSide => ({
  declared,
  choice,
  range:
    range === null ? null : { from: range.from, to: range.to, ...(range.above === null ? { openAbove: true } : {}) },
});

/** A strip that ends before its gain fails knows only that the end lies no lower: a fall or a rise of at least so much, or nothing. */
function upperEnd(before: StripSide["range"], after: StripSide["range"]): number | null {
  const moved = percent(before?.to, after?.to);
  if (moved === null) return null;
  if (before?.openAbove === true && (after?.openAbove === true || moved >= 0)) return null;
  return after?.openAbove === true && moved <= 0 ? null : moved;
}

const percent = (before: number | null | undefined, after: number | null | undefined): number | null =>
  before == null || after == null || before === 0 ? null : change(before, after);
