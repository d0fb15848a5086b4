// Drives of a plan's variants in memory that all its threads share: a search returns to every variant round after round, in
// whichever thread is free.
import { at } from "../base/at.js";
import { type Drive, driveOf } from "../kernel/drive.js";
import { driveWidth, type Shape } from "../kernel/memory.js";
import { simulatedShape } from "../kernel/rig.js";
import { stepsOf } from "../kernel/schedule.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import { type Lengths, memoryForValues, PATIENCE, sharedValues } from "./shared-values.js";

/** Bytes at most: those of some hundred and forty variants of two seconds; what finds no room any more every thread makes for itself. */
const ROOM = 128 * 2 ** 20;

/** The drive of a variant by its index, with the noise that `noise` gives where it has to be made; null where there is no room for it. */
export type SharedDrives = (variant: number, noise: (variant: number) => Float64Array) => Drive | null;

interface SharingOptions {
  readonly room?: number;
  readonly patience?: number; // ms
}

/** The disturbed span, then the command and the heat at rest of every control period, then all that the loop reads. */
const SPAN = 2;
const COLUMNS = 2;

const shapeOf = (plan: TrialPlan, { condition, axis }: TrialVariant): Shape =>
  simulatedShape(plan, at(plan.conditions, condition).craft, axis);

const lengthsOf = (plan: TrialPlan): Lengths =>
  new Map(
    plan.variants.map((variant) => [
      `${variant.index}`,
      SPAN + stepsOf(plan, variant) * (COLUMNS + driveWidth(shapeOf(plan, variant))),
    ]),
  );

/** Memory for the drives of this plan. */
export const memoryForDrives = (plan: TrialPlan, room = ROOM): SharedArrayBuffer =>
  memoryForValues(lengthsOf(plan), room);

/** The drives in the memory made for this plan, here or, for a copy of it, in another thread; with the same room. */
export function sharedDrives(
  plan: TrialPlan,
  memory: SharedArrayBuffer,
  { room = ROOM, patience = PATIENCE }: SharingOptions = {},
): SharedDrives {
  const drives = sharedValues(lengthsOf(plan), memory, room, patience);
  return (index, noise) => {
    const variant = plan.variants[index];
    if (variant === undefined) return null;
    const shape = shapeOf(plan, variant);
    const values = drives(`${index}`, (place) => write(place, driveOf(plan, variant, shape, noise(index))));
    return values === null ? null : read(values, stepsOf(plan, variant), driveWidth(shape));
  };
}

function write(place: Float64Array, { disturbed, command, restHeat, values, steps }: Drive): void {
  place.set([disturbed.from, disturbed.to]);
  place.set(command, SPAN);
  place.set(restHeat, SPAN + steps);
  place.set(values, SPAN + COLUMNS * steps);
}

function read(place: Float64Array, steps: number, width: number): Drive {
  const [from = 0, to = 0] = place;
  const heat = SPAN + steps;
  const values = SPAN + COLUMNS * steps;
  return {
    steps,
    width,
    command: place.subarray(SPAN, heat),
    restHeat: place.subarray(heat, values),
    values: place.subarray(values),
    disturbed: { from, to },
  };
}
