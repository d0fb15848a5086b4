// What theory says of many draws, without holding what it rests on: the pieces of one draw take some hundred kilobytes.
import { type DrawTheory, drawTheory, type Gains } from "../confidence/draw-theory.js";
import type { LoopPlaces } from "../confidence/places.js";
import type { Plan } from "../plan/plan.js";
import { recentlyUsed } from "../run/recently-used.js";
import type { Axis } from "../sweep/sweep.js";

/** Bytes of pieces at once: those of more than a hundred draws of a sweep with six places an axis. */
const ROOM = 64 * 2 ** 20;
/** Bytes of the pieces of one place. */
const LOOP = 32 * 2 ** 10;

type TheoryOfAxes = Readonly<Record<Axis, DrawTheory>>;

/** Per plan of a draw its theory. Pieces are made when first asked for, and anew where there was no room for them any more. */
export function drawTheories(plans: readonly Plan[], places: LoopPlaces, room = ROOM): TheoryOfAxes[] {
  const bytes = LOOP * (places.roll.length + places.pitch.length);
  const recent = recentlyUsed<TheoryOfAxes>(room, () => bytes);
  return plans.map((plan, k) => {
    const made = () => recent(`${k}`, () => drawTheory(plan, places));
    const of = (axis: Axis): DrawTheory => {
      const boundaries = new Map<number, number | null>();
      return {
        haveMargins: (gains) => made()[axis].haveMargins(gains),
        boundary(d) {
          const found = boundaries.get(d);
          const boundary = found === undefined ? made()[axis].boundary(d) : found;
          boundaries.set(d, boundary);
          return boundary;
        },
      };
    };
    return { roll: of("roll"), pitch: of("pitch") };
  });
}

type GainsOfAxes = Readonly<Record<Axis, readonly Gains[]>>;
type MarginsOfAxes = Readonly<Record<Axis, readonly Uint8Array[]>>;

/**
 * Asked by each axis for itself, answered to both at once: the loops of both share their physics, and nothing of a draw is
 * held when the next one comes.
 */
export function marginsOfBoth(
  margins: (gains: GainsOfAxes) => Promise<MarginsOfAxes>,
): (axis: Axis, gains: readonly Gains[]) => Promise<readonly Uint8Array[]> {
  const requests = new Map<Axis, readonly Gains[]>();
  let answer: (margins: Promise<MarginsOfAxes>) => void = () => {};
  const both = new Promise<MarginsOfAxes>((resolve) => {
    answer = resolve;
  });
  return async (axis, gains) => {
    requests.set(axis, gains);
    const [roll, pitch] = [requests.get("roll"), requests.get("pitch")];
    if (roll !== undefined && pitch !== undefined) answer(margins({ roll, pitch }));
    return (await both)[axis];
  };
}
