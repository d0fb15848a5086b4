// What knowing a number exactly would be worth: how many more points would be safe at the confidence. By theory's margins
// in many draws: the draws are parted by the number's value, and within each part it is nearly known. Parting by chance
// alone gives as many points for nothing: that is taken off, and its scatter is the error. Numbers that go together are drawn
// so, and within a part they are as the known one leaves them: what a number tells of the others counts as its own worth, and
// two that go together share theirs, so that worths do not add up.
import { at } from "../base/at.js";
import { shuffled, stream } from "../base/random.js";

/** Draws that theory is asked for; parts of as many draws each. */
export const WORTH_DRAWS = 1024;
const PARTS = 16;
/** Three: a model has some thirty numbers, and by two one or other of them would seem to matter by chance. */
const DEVIATIONS = 3;
/** Partings by chance. */
const CHANCES = 16;

export interface WorthOf {
  /** More points than by chance, in the mean over the number's values. */
  readonly gain: number;
  /** Three standard deviations of one parting by chance. */
  readonly error: number;
}

/**
 * `safe[k]` says in which points draw k has the margins; `columns` hold each number's value in every draw. `confidence` is
 * a fraction.
 */
export function worthOf(
  safe: readonly Uint8Array[],
  columns: readonly (readonly number[])[],
  confidence: number,
): WorthOf[] {
  const order = safe.map((_, k) => k);
  const gained = (ranked: readonly number[]) => pointsInParts(safe, ranked, confidence);
  const chances = Array.from({ length: CHANCES }, (_, k) => gained(shuffled(order, stream("worth by chance", k))));
  const mean = chances.reduce((sum, value) => sum + value, 0) / CHANCES;
  const variance = chances.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (CHANCES - 1);
  const error = DEVIATIONS * Math.sqrt(variance * (1 + 1 / CHANCES));
  return columns.map((column) => {
    const ranked = [...order].sort((one, other) => at(column, one) - at(column, other) || one - other);
    return { gain: gained(ranked) - mean, error };
  });
}

/** Points that are safe at the confidence within a part, in the mean over the parts. */
function pointsInParts(safe: readonly Uint8Array[], ranked: readonly number[], confidence: number): number {
  const size = ranked.length / PARTS;
  const points = at(safe, 0).length;
  let sum = 0;
  for (let part = 0; part < PARTS; part++) {
    const members = ranked.slice(Math.round(part * size), Math.round((part + 1) * size));
    const counts = new Uint16Array(points);
    for (const draw of members) {
      const holds = at(safe, draw);
      for (let point = 0; point < points; point++) counts[point] = (counts[point] ?? 0) + (holds[point] ?? 0);
    }
    sum += counts.reduce((found, count) => (count >= confidence * members.length ? found + 1 : found), 0);
  }
  return sum / PARTS;
}
