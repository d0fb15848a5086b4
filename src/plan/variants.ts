// Which variants a sweep asks for, in the order in which a plan and its map number them.
import type { Axis, Script, Sweep } from "../sweep/sweep.js";

/** One variant as the sweep alone names it: no craft has said yet at which duty it hovers. */
export interface AskedVariant {
  readonly script: Script;
  readonly axis: Axis;
  readonly level: number | "hover"; // duty, fraction
  readonly rate: number; // rad/s
  readonly condition: number; // index into the sweep's
}

export const askedVariants = ({ scripts, conditions }: Pick<Sweep, "scripts" | "conditions">): AskedVariant[] =>
  scripts.flatMap(({ script, throttle, rates }) =>
    script.axes.flatMap((axis) =>
      throttle.flatMap((level) =>
        rates.flatMap((rate) => conditions.map((_, condition) => ({ script, axis, level, rate, condition }))),
      ),
    ),
  );
