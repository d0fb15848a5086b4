// The Fourier transform of real samples, by fft.js. The library fills its table of turns with Math.cos and Math.sin, whose
// last bits the language leaves to the engine; ours replace them, and the rest of it adds and multiplies.
import FFT from "fft.js";
import { cos, sin } from "../base/elementary.js";
import { type Complex, empty } from "../base/fourier.js";

export interface Transform {
  /** X[k] = sum over n of x[n] exp(-2 pi i k n / N), for k from 0 to N/2. */
  readonly forward: (samples: Float64Array) => Complex;
  /** The real samples of such a half spectrum, scaled by 1/N. */
  readonly backward: (half: Complex) => Float64Array;
}

/** Of this many samples, a power of two from 4 on. */
export function transformOf(length: number): Transform {
  const fft = new FFT(length);
  for (let k = 0; k < length; k++) {
    const angle = (2 * Math.PI * k) / length;
    fft.table[2 * k] = cos(angle);
    fft.table[2 * k + 1] = -sin(angle);
  }
  const out: number[] = fft.createComplexArray();
  return {
    forward: (samples) => {
      fft.realTransform(out, samples);
      return halved(out, length);
    },
    backward: (half) => {
      fft.inverseTransform(out, whole(half, length));
      return Float64Array.from({ length }, (_, n) => out[2 * n] ?? 0);
    },
  };
}

function halved(pairs: readonly number[], length: number): Complex {
  const half = empty(length / 2 + 1);
  half.re.forEach((_, k) => {
    half.re[k] = pairs[2 * k] ?? 0;
    half.im[k] = pairs[2 * k + 1] ?? 0;
  });
  return half;
}

/** The spectrum of real samples: its upper half mirrors the lower. */
function whole({ re, im }: Complex, length: number): number[] {
  const pairs = new Array<number>(2 * length).fill(0);
  for (let k = 0; k <= length / 2; k++) {
    const [real, imaginary] = [re[k] ?? 0, im[k] ?? 0];
    const mirror = (length - k) % length;
    pairs[2 * mirror] = real;
    pairs[2 * mirror + 1] = -imaginary;
    pairs[2 * k] = real;
    pairs[2 * k + 1] = imaginary;
  }
  return pairs;
}

/** The power of two nearest to a length, in ratio. */
export function nearestPowerOfTwo(length: number): number {
  let power = 4;
  while (power * Math.SQRT2 < length) power *= 2;
  return power;
}
