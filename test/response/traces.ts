// Exact traces to hold the measures against: a stop is the mirror image of a step, level (1 - step response).

/** Samples f(0), f(period) ... */
export const sampled = (f: (t: number) => number, seconds: number, period: number): Float64Array =>
  Float64Array.from({ length: Math.round(seconds / period) }, (_, k) => f(k * period));

/** Step response of wn^2/(s^2 + 2 z wn s + wn^2), z up to 1. Textbook closed form. */
export function secondOrder(z: number, wn: number): (t: number) => number {
  if (z === 1) return (t) => 1 - Math.exp(-wn * t) * (1 + wn * t);
  const wd = wn * Math.sqrt(1 - z * z);
  return (t) => 1 - Math.exp(-z * wn * t) * (Math.cos(wd * t) + ((z * wn) / wd) * Math.sin(wd * t));
}

/** Samples of a linear system's output at rest before a unit step, by the classical fourth-order Runge-Kutta method. */
export function simulated(
  order: number,
  slope: (state: readonly number[]) => number[],
  output: (state: readonly number[]) => number,
  seconds: number,
  period: number,
): Float64Array {
  let state: number[] = new Array(order).fill(0);
  const moved = (by: readonly number[], h: number) => state.map((value, i) => value + h * by[i]);
  return sampled(
    () => {
      const now = output(state);
      const a = slope(state);
      const b = slope(moved(a, period / 2));
      const c = slope(moved(b, period / 2));
      const d = slope(moved(c, period));
      state = state.map((value, i) => value + (period / 6) * (a[i] + 2 * b[i] + 2 * c[i] + d[i]));
      return now;
    },
    seconds,
    period,
  );
}

/** The stop whose step response is given, from `level` to zero. */
export const stopOf = (step: Float64Array, level: number, final = 1): Float64Array =>
  step.map((y) => level * (1 - y / final));
