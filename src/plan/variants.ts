// The variants of a sweep, in the order in which a plan and its map number them.
import type { Axis, Script, Sweep, TestedAxis } from "../sweep/sweep.js";

/** Yaw is tested in a strip alone. */
const hasMap = (axis: TestedAxis): axis is Axis => axis !== "yaw";

/** One variant as the sweep alone names it: without the duty at which a craft hovers. */
export interface RequestedVariant {
  readonly script: Script;
  readonly axis: Axis;
  readonly level: number | "hover"; // duty, fraction
  readonly rate: number; // rad/s
  readonly condition: number; // index into the sweep's
}

export const requestedVariants = ({ scripts, conditions }: Pick<Sweep, "scripts" | "conditions">): RequestedVariant[] =>
  scripts.flatMap(({ script, throttle, rates }) =>
    script.axes
      .filter(hasMap)
      .flatMap((axis) =>
        throttle.flatMap((level) =>
          rates.flatMap((rate) => conditions.map((_, condition) => ({ script, axis, level, rate, condition }))),
        ),
      ),
  );
