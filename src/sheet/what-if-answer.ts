// What a change does to a tune as plain data in display units, each number with how far it may be off where spreads say so.
import { COVERAGE } from "../base/spread.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { Margins } from "../theory/margins.js";
import type { Sheet } from "./format.js";
import type { AxisWhatIf, TunedAxis, WhatIf } from "./what-if.js";

/** `plusMinus`: two standard deviations over pairs of draws; null: no spreads, or too few draws have the number. */
export interface UnsureNumber {
  readonly value: number;
  readonly plusMinus: number | null;
}

export interface BeforeAfter<T> {
  readonly before: T;
  readonly after: T;
}

export interface AxisAnswer {
  /** The tune of before that the factors are for; % per 100 deg/s and % per 1000 deg/s^2. */
  readonly tune: { readonly p: number; readonly d: number; readonly declared: boolean };
  /** To multiply P and D by; null: no such factors. I goes with P. */
  readonly factors: { readonly p: UnsureNumber; readonly d: UnsureNumber | null } | null;
  /** Both margins stay what they were; else they come as near as they can. */
  readonly matched: boolean;
  /** Worst of hover and 70 % throttle; after: with the factors. */
  readonly margins: BeforeAfter<Margins> | null;
  /** P at which the axis gives out with the tune's D; null: nowhere near. */
  readonly boundary: BeforeAfter<UnsureNumber | null>;
}

export interface WhatIfAnswer extends BeforeAfter<Sheet> {
  /** Whether the model's own gains of yaw still hold it after. */
  readonly yawHolds: boolean;
  /** Null: no P and D hold the axis well before. */
  readonly axes: Readonly<Record<TunedAxis, AxisAnswer | null>>;
  readonly hoverThrottlePercent: BeforeAfter<UnsureNumber>;
  readonly thrustToWeight: BeforeAfter<UnsureNumber>;
  /** Pairs of craft drawn; 0: the model gives no spreads. */
  readonly draws: number;
}

/** `drawn`: the same for pairs of craft drawn from the spreads. */
export function whatIfAnswer(nominal: WhatIf, drawn: readonly WhatIf[]): WhatIfAnswer {
  const unsure = (of: (one: WhatIf) => number): UnsureNumber => ({
    value: of(nominal),
    plusMinus: plusMinusOf(drawn.map(of)),
  });
  const sides = (of: (sheet: Sheet) => number): BeforeAfter<UnsureNumber> => ({
    before: unsure(({ before }) => of(before)),
    after: unsure(({ after }) => of(after)),
  });
  const axis = (name: TunedAxis) =>
    axisAnswer(
      nominal.axes[name],
      drawn.map(({ axes }) => axes[name]),
    );
  return {
    before: nominal.before,
    after: nominal.after,
    yawHolds: nominal.yawHolds,
    axes: { roll: axis("roll"), pitch: axis("pitch") },
    hoverThrottlePercent: sides(({ hover }) => hover.throttlePercent),
    thrustToWeight: sides(({ fullThrottle }) => fullThrottle.thrustToWeight),
    draws: drawn.length,
  };
}

function axisAnswer(nominal: AxisWhatIf | null, drawn: readonly (AxisWhatIf | null)[]): AxisAnswer | null {
  if (nominal === null) return null;
  const unsure = (of: (one: AxisWhatIf) => number | null): UnsureNumber | null => {
    const value = of(nominal);
    if (value === null) return null;
    const values = drawn.map((one) => (one === null ? null : of(one)));
    return { value, plusMinus: plusMinusOf(values) };
  };
  const { gains, declared, matched } = nominal;
  const isFound = matched?.after.stable === true;
  const factor = (of: "p" | "d") =>
    unsure(({ matched: one }) => (one?.matched === matched?.matched ? (one?.factors[of] ?? null) : null));
  const p = isFound ? factor("p") : null;
  const boundary = (side: "before" | "after") =>
    unsure(({ boundary: { [side]: end } }) => (end === null ? null : end / P_UNIT));
  return {
    tune: { p: gains.p / P_UNIT, d: gains.d / D_UNIT, declared },
    factors: p === null ? null : { p, d: factor("d") },
    matched: isFound && matched.matched,
    margins: isFound ? { before: matched.before, after: matched.after } : null,
    boundary: { before: boundary("before"), after: boundary("after") },
  };
}

const LEAST_DRAWS = 16;

/** Two standard deviations; null where fewer than a few draws, or not nearly all, have the number. */
function plusMinusOf(values: readonly (number | null)[]): number | null {
  const found = values.filter((value) => value !== null);
  if (found.length < LEAST_DRAWS || found.length < 0.9 * values.length) return null;
  const mean = found.reduce((sum, value) => sum + value, 0) / found.length;
  const squares = found.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return COVERAGE * Math.sqrt(squares / (found.length - 1));
}
