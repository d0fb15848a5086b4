// The draws of a baseline: of each what its drift is computed from, laid out D by D; not the values drawn.
import { at } from "../base/at.js";
import { list, object, positive, text } from "../base/read-back.js";
import type { DrawOfAxis, Uncertainty } from "../map/confidence-format.js";
import { uncertaintyShape } from "../map/confidence-shape.js";
import type { Fault } from "../map/fault.js";
import type { Grid } from "../map/format.js";
import { toBaselineDigits } from "./paired-draws.js";

const AXES = ["roll", "pitch"] as const;

export type BaselineDraws = Pick<Uncertainty, "confidence" | "pointDraws" | "spreads" | "redrawn"> &
  Readonly<Record<(typeof AXES)[number], DrawsOfAxis>>;

interface DrawsOfAxis {
  /** [d][draw], five digits. */
  readonly boundary: Grid<number | null>;
  /** By draw. */
  readonly startFailsBy: readonly (string | null)[];
}

export function drawsOf({ confidence, pointDraws, spreads, redrawn, draws }: Uncertainty): BaselineDraws {
  const of = (axis: (typeof AXES)[number]): DrawsOfAxis => ({
    boundary: (draws[0]?.[axis].boundary ?? []).map((_, row) =>
      draws.map((draw) => toBaselineDigits(draw[axis].boundary[row] ?? null)),
    ),
    startFailsBy: draws.map((draw) => draw[axis].startFailsBy),
  });
  return { confidence, pointDraws, spreads, redrawn, roll: of("roll"), pitch: of("pitch") };
}

/** As a map has them, without values. */
export function uncertaintyIn({ confidence, pointDraws, spreads, redrawn, roll, pitch }: BaselineDraws): Uncertainty {
  const of = ({ boundary, startFailsBy }: DrawsOfAxis, k: number): DrawOfAxis => ({
    boundary: boundary.map((row) => row[k] ?? null),
    startFailsBy: at(startFailsBy, k),
  });
  const draws = roll.startFailsBy.map((_, k) => ({ values: [], roll: of(roll, k), pitch: of(pitch, k) }));
  return { confidence, pointDraws, spreads, redrawn, draws };
}

const ofAxis = () => object({ boundary: list(list(positive().nullable())), startFailsBy: list(text().nullable()) });

export const baselineDrawsShape = () =>
  object({ ...uncertaintyShape().omit({ draws: true, numbers: true }).shape, roll: ofAxis(), pitch: ofAxis() });

/** Every D of both axes has as many draws. */
export function drawsFaults({ uncertainty }: { readonly uncertainty?: BaselineDraws }): Fault[] {
  if (uncertainty === undefined) return [];
  const draws = uncertainty.roll.startFailsBy.length;
  return AXES.flatMap((axis) => {
    const { boundary, startFailsBy } = uncertainty[axis];
    const whole = startFailsBy.length === draws && boundary.every((row) => row.length === draws);
    return whole ? [] : [[["uncertainty", axis], `expected ${draws} draws at each D`] as const];
  });
}
