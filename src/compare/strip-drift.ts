// What moved of yaw's P and of I: the gain to take and the range that passes, where both maps judged the gain.
import { canonicalJson } from "../base/canonical.js";
import type { StabilityMap } from "../map/format.js";
import type { Strip } from "../map/strip-format.js";
import type { StripDrift, StripSide } from "./format.js";
import { change } from "./shift.js";

/** Strips of other scripts or limits answer another question. */
const isSameQuestion = (one: Strip, other: Strip): boolean =>
  canonicalJson([one.limits, one.titles]) === canonicalJson([other.limits, other.titles]);

/** None where a side judged none. */
export function stripDrifts(base: StabilityMap, candidate: StabilityMap): StripDrift[] {
  const [before, after] = [gainsOf(base), gainsOf(candidate)];
  return before.flatMap(({ gain, strip }): StripDrift[] => {
    const other = after.find((one) => one.gain === gain)?.strip;
    if (other === undefined || !isSameQuestion(strip, other)) return [];
    const [was, now] = [sideOf(strip), sideOf(other)];
    return [
      {
        gain,
        before: was,
        after: now,
        choicePercent: percent(was.choice, now.choice),
        fromPercent: percent(was.range?.from, now.range?.from),
        toPercent: percent(was.range?.to, now.range?.to),
      },
    ];
  });
}

const gainsOf = ({ strips }: StabilityMap): { gain: StripDrift["gain"]; strip: Strip }[] => [
  ...(strips?.yaw === undefined ? [] : [{ gain: "Yaw P" as const, strip: strips.yaw }]),
  ...(strips?.i?.roll === undefined ? [] : [{ gain: "Roll I" as const, strip: strips.i.roll }]),
  ...(strips?.i?.pitch === undefined ? [] : [{ gain: "Pitch I" as const, strip: strips.i.pitch }]),
];

const sideOf = ({ declared, choice, range }: Strip): StripSide => ({
  declared,
  choice,
  range: range === null ? null : { from: range.from, to: range.to },
});

const percent = (before: number | null | undefined, after: number | null | undefined): number | null =>
  before == null || after == null || before === 0 ? null : change(before, after);
