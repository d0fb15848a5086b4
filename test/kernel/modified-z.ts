// 1/(s (lag s + 1)) behind a zero-order hold and a latency of any length, sampled: by the modified z-transform of its step
// response t - lag + lag e^(-t/lag) (Jury, Sampled-Data Control Systems, 1958, tables from memory; worked here).
import { rootBetween } from "../../src/theory/crossing.js";

type Complex = readonly [re: number, im: number];

const plus = (...terms: readonly Complex[]): Complex =>
  terms.reduce(([a, b], [c, d]): Complex => [a + c, b + d], [0, 0] as const);
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = (top: Complex, [c, d]: Complex): Complex => times(top, [c / (c * c + d * d), -d / (c * c + d * d)]);

/** Response at an angle (rad per sample) with a latency of `delay` samples of `period` s. */
export function lagBehindFractionalHold(lag: number, delay: number, period: number): (angle: number) => Complex {
  const whole = Math.ceil(delay);
  const share = whole - delay; // the m of the tables
  return (angle) => {
    const z: Complex = [Math.cos(angle), Math.sin(angle)];
    const less = (value: number): Complex => [z[0] - value, z[1]];
    const late: Complex = [Math.cos(whole * angle), -Math.sin(whole * angle)];
    const growth = over([period, 0], less(1));
    const start: Complex = [share * period - lag, 0];
    const rest = times([lag * Math.exp((-share * period) / lag), 0], over(less(1), less(Math.exp(-period / lag))));
    return times(late, plus(growth, start, rest));
  };
}

/** Gain and frequency (rad/s) at which the loop with P alone first swings without dying out. */
export function firstLimit(response: (angle: number) => Complex, period: number) {
  const imaginary = (angle: number) => response(angle)[1];
  let below = 1e-3;
  while (!(imaginary(below) < 0 && imaginary(below * 1.01) >= 0)) below *= 1.01;
  const angle = below * (1 + 0.01 * rootBetween((share) => imaginary(below * (1 + 0.01 * share))));
  return { gain: -1 / response(angle)[0], frequency: angle / period };
}
