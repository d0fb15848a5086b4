// Noise whose spectrum is exact within one period: every line has the same amplitude and a phase of its own drawn at
// random (a random-phase multisine: R. Pintelon and J. Schoukens, System Identification, 2nd ed. 2012, ch. 5). Its period is
// the window in which a script is judged, so its effect there depends on the seed no more than it must: drawn from a
// bell curve, a second of it holds too few bursts to agree from seed to seed.
import { canonicalJson } from "../base/canonical.js";
import { cos, sin } from "../base/elementary.js";
import { empty, fourier, smoothLength } from "../base/fourier.js";
import { stream, type Xoshiro128 } from "../base/random.js";
import type { Script } from "../sweep/sweep.js";

/** s, the least period: a shorter one would hold no slow noise. */
const SHORTEST = 0.5;

/** Control periods after which a script's noise comes again: its window, or some thousandths more. */
export function noisePeriod({ window }: Script, period: number): number {
  return smoothLength(Math.round(Math.max(SHORTEST, window.to - window.from) / period));
}

/** A phase drawn at random: its cosine and sine. */
export function randomPhase(source: Xoshiro128): readonly [cosine: number, sine: number] {
  const phase = (source.next() / 4294967296) * 2 * Math.PI;
  return [cos(phase), sin(phase)];
}

/**
 * One period of white noise, of mean square 1 with all its lines, from the line of so many cycles in it on: 0, the mean,
 * and the highest have no phase but a sign.
 */
export function multisine(length: number, source: Xoshiro128, least = 0): Float64Array {
  const lines = empty(length);
  for (let k = least; 2 * k <= length; k++) {
    const [re, im] = randomPhase(source);
    const mirrored = length - k;
    if (k === 0 || mirrored === k) lines.re[k] = re < 0 ? -1 : 1;
    else {
      lines.re[k] = lines.re[mirrored] = re;
      lines.im[k] = im;
      lines.im[mirrored] = -im;
    }
  }
  const scale = 1 / Math.sqrt(length);
  return fourier(lines).re.map((value) => scale * value);
}

/** Noise drawn last: variants of one script and condition meet the same, whatever their throttle, rate and axis. */
const drawn = new Map<string, Float64Array>();
const ROOM = 2 ** 20; // numbers: all conditions of a script in turn
let cachedLength = 0;

/** As `multisine`, of the stream with these keys; not to be written into. */
export function multisineOf(length: number, streams: readonly (string | number)[], least = 0): Float64Array {
  const key = canonicalJson([length, least, ...streams]);
  const cached = drawn.get(key);
  if (cached !== undefined) return cached;
  const noise = multisine(length, stream(...streams), least);
  cachedLength += length;
  for (const [oldest, { length: freed }] of drawn) {
    if (cachedLength <= ROOM) break;
    drawn.delete(oldest);
    cachedLength -= freed;
  }
  drawn.set(key, noise);
  return noise;
}
