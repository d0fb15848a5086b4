// What disturbed air or a moving throttle does to the craft: attitude deviation is the integral of the rate error.

/** Attitude deviation from the start of the window, rad, one sample per control period (trapezoidal). */
export function attitudeDeviation(trace: Float64Array, command: Float64Array, from: number, to: number, period: number, out: Float64Array): Float64Array {
  let angle = 0;
  let before = trace[from] - command[from];
  for (let k = from; k < to; k++) {
    const now = trace[k] - command[k];
    angle += 0.5 * period * (before + now);
    out[k - from] = angle;
    before = now;
  }
  return out.subarray(0, to - from);
}

/** Largest departure from the first value, rad. */
export function largest(angle: Float64Array): number {
  let most = 0;
  for (let k = 0; k < angle.length; k++) most = Math.max(most, Math.abs(angle[k]));
  return most;
}

/** Rms about the best straight line, rad: a drift is not a wobble. */
export function wobbleRms(angle: Float64Array): number {
  const n = angle.length;
  const middle = (n - 1) / 2;
  let mean = 0;
  let moment = 0;
  let squares = 0;
  for (let k = 0; k < n; k++) {
    mean += angle[k];
    moment += (k - middle) * angle[k];
  }
  mean /= n;
  const slope = moment / ((n * (n * n - 1)) / 12);
  for (let k = 0; k < n; k++) {
    const off = angle[k] - mean - slope * (k - middle);
    squares += off * off;
  }
  return Math.sqrt(squares / n);
}

/** Mean frequency of the attitude wobble, Hz: passages of the rate error through zero beyond a tenth of its rms. */
export function wobbleFrequency(trace: Float64Array, command: Float64Array, from: number, to: number, period: number): number {
  let squares = 0;
  for (let k = from; k < to; k++) {
    const error = trace[k] - command[k];
    squares += error * error;
  }
  const threshold = 0.1 * Math.sqrt(squares / (to - from));
  let side = 0;
  let passages = 0;
  for (let k = from; k < to; k++) {
    const error = trace[k] - command[k];
    const now = error > threshold ? 1 : error < -threshold ? -1 : side;
    if (now !== side && side !== 0) passages++;
    side = now;
  }
  return passages / 2 / ((to - from) * period);
}

/** Time until the rate error stays within a tenth of its largest value, ms; the window's length where it never does. */
export function recoveryTime(trace: Float64Array, command: Float64Array, from: number, to: number, period: number): number {
  let most = 0;
  for (let k = from; k < to; k++) most = Math.max(most, Math.abs(trace[k] - command[k]));
  let last = from;
  for (let k = from; k < to; k++) if (Math.abs(trace[k] - command[k]) > 0.1 * most) last = k;
  return 1000 * period * (last - from);
}
