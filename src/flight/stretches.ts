// The parts of a log that may be used.
import { at, numberAt } from "../base/at.js";
import type { LogDeclaration } from "./flight.js";
import type { Stretch } from "./log.js";

/** What may be used (`use` empty: all), cut before the rows `cuts`; a single row is no stretch. */
export function stretchesOf(time: Float64Array, cuts: readonly number[], use: LogDeclaration["use"]): Stretch[] {
  const edges = [0, ...cuts, time.length];
  const whole = edges.slice(1).map((to, k) => ({ from: at(edges, k), to }));
  const wanted =
    use.length === 0
      ? [{ from: 0, to: time.length }]
      : use.map(({ from, to }) => ({ from: firstAt(time, from), to: firstAt(time, to) }));
  return wanted.flatMap((one) => overlapping(whole, one)).filter(({ from, to }) => to - from > 1);
}

/** Parts of `one` in pieces that follow each other: a log may have a million of both. */
function overlapping(pieces: readonly Stretch[], one: Stretch): Stretch[] {
  let [low, high] = [0, pieces.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at(pieces, middle).to <= one.from) low = middle + 1;
    else high = middle;
  }
  const found: Stretch[] = [];
  for (let k = low; k < pieces.length && at(pieces, k).from < one.to; k++)
    found.push({ from: Math.max(one.from, at(pieces, k).from), to: Math.min(one.to, at(pieces, k).to) });
  return found;
}

/** The first row at this time or later. */
function firstAt(time: Float64Array, seconds: number): number {
  let [low, high] = [0, time.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (numberAt(time, middle) < seconds) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** s of a stretch. */
export const lasting = (time: Float64Array, { from, to }: Stretch): number =>
  to > from ? numberAt(time, to - 1) - numberAt(time, from) : 0;
