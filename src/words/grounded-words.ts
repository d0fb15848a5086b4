// Axes that have no tune to climb to: a craft with one of them must not fly, whatever the other axis has.
import { last } from "../base/at.js";
import type { StabilityMap } from "../map/format.js";
import { AXES, AXIS_TITLES, type Axis } from "./axes.js";
import { otherCauses } from "./cause-words.js";

export interface GroundedAxis {
  readonly axis: Axis;
  /** Whole sentences: what is missing, and why. */
  readonly reasons: readonly string[];
}

/** None where the craft may fly the climb, or where a map holds no climb at all although both axes have a tune. */
export const groundedAxes = (map: StabilityMap): GroundedAxis[] =>
  AXES.flatMap((axis) => {
    const reasons = groundedReasons(map, axis);
    return reasons.length === 0 ? [] : [{ axis, reasons }];
  });

function groundedReasons(map: StabilityMap, axis: Axis): string[] {
  const { start, startReason } = map.axes[axis];
  const title = AXIS_TITLES[axis];
  if (start === null)
    return [
      `${title} has no starting tune. ${startReason ?? "The map gives no reason."}`,
      ...otherCauses(map.axes[axis]),
    ];
  const climb = (map.ladder?.steps ?? []).filter(({ stage }) => stage !== "check");
  if (climb.length === 0 || (climb[0]?.axes[axis] !== undefined && last(climb).axes[axis] !== undefined)) return [];
  return [
    `${title} has a starting tune, but no way up to it: the sweep has no stop and no wash that a pilot could fly, or on a step of the climb an oscillation would not die out.`,
  ];
}

/** Why one axis alone is no ground to take off from. Common practice, no source. */
export const WHY_GROUNDED =
  "A craft flies on all its axes at once: however good the one, the other can shake or flip it at any gains.";

/** Why there is no card to print, a line for each axis; none where there is one. `testStand`: that axis alone, on a test stand. */
export function cardRefusals(map: StabilityMap, testStand?: Axis): string[] {
  const grounded = groundedAxes(map).filter(({ axis }) => testStand === undefined || axis === testStand);
  const free = AXES.find((axis) => grounded.every((one) => one.axis !== axis));
  const way =
    testStand !== undefined || free === undefined
      ? ""
      : ` (--test-stand ${free}: ${free} alone, on a stand that holds the craft)`;
  return grounded.map(({ reasons }) => `no card to fly by${way}: ${reasons[0]}`);
}
