// What a change of a model does to a tune, by theory alone: by how much P and D are to change, and what moved besides.
import type { Airframe, AxisGains } from "../airframe/airframe.js";
import { craftUnder, STANDARD_DAY } from "../airframe/craft.js";
import { hoverTrim, trimAt } from "../airframe/trim.js";
import { axisPieces, coarsePieces } from "../theory/axis-pieces.js";
import { endAbove } from "../theory/ground.js";
import { type MatchedGains, matchedGains, worstMargins } from "../theory/matched-gains.js";
import type { LoopPieces } from "../theory/pieces.js";
import type { AxisName } from "../theory/plant.js";
import { referenceTune } from "../theory/reference-tune.js";
import type { Sheet } from "./format.js";
import { BRISK, sheetOf } from "./sheet.js";

export type TunedAxis = "roll" | "pitch";

/** One axis; gains SI, those of before. */
export interface AxisWhatIf {
  readonly gains: AxisGains;
  /** Declared in the model; else the most P that keeps good margins. */
  readonly declared: boolean;
  /** Null: no such factors. */
  readonly matched: MatchedGains | null;
  /** P at which the axis gives out with the D of `gains`; null: nowhere near. */
  readonly boundary: { readonly before: number | null; readonly after: number | null };
}

export interface WhatIf {
  readonly before: Sheet;
  readonly after: Sheet;
  /** Whether the model's own gains of yaw still hold it after; without that no loop of the craft is stable. */
  readonly yawHolds: boolean;
  /** Null: no P and D hold the axis well before, so there is no tune to change. */
  readonly axes: Readonly<Record<TunedAxis, AxisWhatIf | null>>;
}

/** Both models can hover on a full pack, as every model that was read can. */
export function whatIf(before: Airframe, after: Airframe): WhatIf {
  const [from, to] = [loopsOf(before, axisPieces), loopsOf(after, axisPieces)];
  const axis = (name: TunedAxis): AxisWhatIf | null => {
    const loops = from(name);
    const own = declaredGains(before, name);
    const declared = own !== null && worstMargins(loops, own).stable;
    const gains = declared ? own : referenceTune(loops, before.controller[name].i);
    return gains === null ? null : { declared, ...changedAxis(loops, to(name), gains) };
  };
  const yawHolds = worstMargins(to("yaw"), after.controller.yaw).stable;
  return {
    before: sheetOf(before),
    after: sheetOf(after),
    yawHolds,
    axes: { roll: axis("roll"), pitch: axis("pitch") },
  };
}

/** The same change of a drawn pair of craft, at the same gains; on coarser frequencies, since there are many. */
export function whatIfDrawn(before: Airframe, after: Airframe, { axes, yawHolds }: WhatIf): WhatIf {
  const [from, to] = [loopsOf(before, coarsely), loopsOf(after, coarsely)];
  const axis = (name: TunedAxis): AxisWhatIf | null => {
    const nominal = axes[name];
    return nominal === null ? null : { ...nominal, ...changedAxis(from(name), to(name), nominal.gains) };
  };
  return {
    before: sheetOf(before),
    after: sheetOf(after),
    yawHolds,
    axes: { roll: axis("roll"), pitch: axis("pitch") },
  };
}

function changedAxis(from: readonly LoopPieces[], to: readonly LoopPieces[], gains: AxisGains) {
  return {
    gains,
    matched: matchedGains(from, to, gains),
    boundary: { before: endAbove(from, gains), after: endAbove(to, gains) },
  };
}

const coarsely: typeof axisPieces = (craft, trim, axis, holding) => coarsePieces(craft, trim)(axis, holding);

const OPEN: AxisGains = Object.freeze({ p: 0, i: 0, d: 0 });

/** The loops of an axis on a fresh pack at sea level, in hover and at a brisk throttle, the other tuned axis open. */
function loopsOf(airframe: Airframe, piecesOf: typeof axisPieces): (axis: AxisName) => LoopPieces[] {
  const craft = craftUnder(airframe, STANDARD_DAY);
  const trims = [hoverTrim(craft), trimAt(craft, BRISK)].filter((trim) => trim !== null);
  const holding = { roll: OPEN, pitch: OPEN, yaw: airframe.controller.yaw };
  return (axis) => trims.map((trim) => piecesOf(craft, trim, axis, holding));
}

function declaredGains({ controller }: Airframe, axis: TunedAxis): AxisGains | null {
  const { p, i, d } = controller[axis];
  return p === null || d === null || p === 0 ? null : { p, i, d };
}
