// Noise of a plan's variants in memory that all its threads share: whichever needs it first draws it, the others wait for it.
import { noiseInto, noiseKey, noiseLength } from "../kernel/noise.js";
import type { TrialPlan } from "../plan/plan.js";

/** Bytes at most; noise that finds no room any more is drawn by every thread for itself. */
const ROOM = 64 * 2 ** 20;
/** ms another thread is waited for: one that ended while it drew leaves its place unfinished. */
const PATIENCE = 5_000;

const EMPTY = 0;
const STARTED = 1;
const WRITTEN = 2;

/** Noise of a variant by its index, under the plan's own seed; null where there is no room for it. */
export type SharedNoise = (variant: number) => Float64Array | null;

interface SharingOptions {
  readonly room?: number;
  readonly patience?: number;
}

/** Memory for the noise of this plan. Its pages cost nothing until they are written. */
export const memoryForNoise = (plan: TrialPlan, room = ROOM): SharedArrayBuffer =>
  new SharedArrayBuffer(placesOf(plan, room).bytes);

const memories = new WeakMap<TrialPlan, SharedArrayBuffer>();

/** The memory for the noise of this plan that all who ask in this thread share. */
export function noiseMemory(plan: TrialPlan): SharedArrayBuffer {
  const memory = memories.get(plan) ?? memoryForNoise(plan);
  memories.set(plan, memory);
  return memory;
}

/** The noise in the memory made for this plan, here or, for a copy of it, in another thread; with the same room. */
export function sharedNoise(
  plan: TrialPlan,
  memory = noiseMemory(plan),
  { room = ROOM, patience = PATIENCE }: SharingOptions = {},
): SharedNoise {
  const { places } = placesOf(plan, room);
  const states = new Int32Array(memory, 0, places.size);
  return (index) => {
    const variant = plan.variants[index];
    const place = variant === undefined ? undefined : places.get(noiseKey(variant));
    if (variant === undefined || place === undefined) return null;
    const values = new Float64Array(memory, place.from, place.length);
    if (Atomics.compareExchange(states, place.state, EMPTY, STARTED) === EMPTY) {
      noiseInto(values, plan, variant);
      Atomics.store(states, place.state, WRITTEN);
      Atomics.notify(states, place.state);
    } else Atomics.wait(states, place.state, STARTED, patience);
    return Atomics.load(states, place.state) === WRITTEN ? values : null;
  };
}

interface Place {
  readonly state: number; // which one of the states at the beginning
  readonly from: number; // bytes
  readonly length: number; // numbers
}

/** One place per noise by its key, behind a state for each: the same in every thread. */
function placesOf(plan: TrialPlan, room: number): { places: ReadonlyMap<string, Place>; bytes: number } {
  const lengths = new Map(plan.variants.map((variant) => [noiseKey(variant), noiseLength(plan, variant)]));
  const places = new Map<string, Place>();
  let bytes = Math.ceil((lengths.size * Int32Array.BYTES_PER_ELEMENT) / Float64Array.BYTES_PER_ELEMENT) * 8;
  for (const [key, length] of lengths) {
    const to = bytes + length * Float64Array.BYTES_PER_ELEMENT;
    if (to > room) break;
    places.set(key, { state: places.size, from: bytes, length });
    bytes = to;
  }
  return { places, bytes };
}
