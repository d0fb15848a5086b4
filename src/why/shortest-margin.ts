// At which throttle and pack a tune has least margin, by theory.
import type { Airframe } from "../airframe/airframe.js";
import type { Axis } from "../sweep/sweep.js";
import { type Margins, marginsOf } from "../theory/margins.js";
import { type Asked, hoverGuesses, type PlacedLoop, placedLoops } from "./loops.js";

/** Of gain upwards, downwards, whichever of both is less, or of phase. */
export type MarginKind = "gainUp" | "gainDown" | "gain" | "phase";

const READ: Readonly<Record<MarginKind, (margins: Margins) => number | null>> = {
  gainUp: ({ gainUp }) => gainUp,
  gainDown: ({ gainDown }) => gainDown,
  gain: ({ gainUp, gainDown }) =>
    gainUp === null || gainDown === null ? (gainUp ?? gainDown) : Math.min(gainUp, gainDown),
  phase: ({ phase }) => phase,
};

interface ShortestMargin extends Pick<PlacedLoop, "throttle" | "condition"> {
  readonly value: number; // dB or deg
}

/** At SI gains; null where no such craft can be, or the margin has no end anywhere. */
export function shortestMargin(
  airframe: Airframe,
  asked: Asked,
  axis: Axis,
  gains: { readonly p: number; readonly d: number },
  kind: MarginKind,
): ShortestMargin | null {
  const guesses = hoverGuesses(airframe, asked);
  const loops = guesses === null ? null : placedLoops(airframe, asked, guesses);
  if (loops === null) return null;
  const { i } = airframe.controller[axis];
  const found = loops[axis].flatMap(({ loop, throttle, condition }): ShortestMargin[] => {
    const value = READ[kind](marginsOf(loop, { ...gains, i }));
    return value === null ? [] : [{ throttle, condition, value }];
  });
  return found.reduce<ShortestMargin | null>(
    (least, one) => (least === null || one.value < least.value ? one : least),
    null,
  );
}
