// Invented loops: closed shapes for what a craft would do at a P and D. Nothing here is simulated.
import { MEASURE_IDS, MEASURES, type MeasureId, VERDICTS, type Verdict } from "../../src/base/measures.js";
import type { StabilityMap } from "../../src/map/format.js";

export type Axis = keyof StabilityMap["axes"];
type Values = Record<MeasureId, number | null>;
export type Loop = { readonly peak: number; readonly atZero: number; readonly widest: number; readonly closes: number };

export const LOOPS: Record<Axis, Loop> = {
  roll: { atZero: 35, peak: 55, widest: 4.6, closes: 8.1 },
  pitch: { atZero: 41, peak: 63, widest: 5.2, closes: 9.6 },
};
// Limits of its own: the catalogue's defaults may be tuned without moving this map.
export const limits: Record<MeasureId, number | null> = {
  ...(Object.fromEntries(MEASURE_IDS.map((id) => [id, null])) as Record<MeasureId, null>),
  overshoot: 15, // %
  settling: 250, // ms
  rebounds: 2,
  rise: 120, // ms
  kick: 8, // deg
  wobbleAngle: 4, // deg rms
  heat: 1.5,
  commandNoise: 6, // %
}; /** Stable P interval of a loop at a D, or null past the fold; `ease` widens it at low throttle or on a tired pack. */
export function interval(loop: Loop, d: number, ease: number): [number, number] | null {
  const at = d / ease;
  if (at >= loop.closes) return null;
  const rise = Math.sin((Math.PI / 2) * Math.min(1, at / loop.widest));
  const past = Math.max(0, (at - loop.widest) / (loop.closes - loop.widest));
  const tip = loop.peak * 0.6;
  const top = loop.atZero + (loop.peak - loop.atZero) * rise - (loop.peak - tip) * past ** 2.2;
  const low = past < 0.55 ? 0 : tip * ((past - 0.55) / 0.45) ** 0.7;
  return low < top ? [low * ease, top * ease] : null;
}

export const inside = (range: [number, number] | null, p: number): boolean =>
  range !== null && p >= range[0] && p < range[1];

export function valuesAt(loop: Loop, p: number, d: number): Values {
  const range = interval(loop, d, 1);
  const near = range === null ? 1.2 : p / range[1];
  const stable = inside(range, p);
  return {
    overshoot: 4 + 34 * Math.exp(-d / 1.25) * (0.45 + p / 60) + 38 * near ** 9,
    settling: stable ? 95 + 210 * near ** 7 + 120 * Math.exp(-d) : null,
    rebounds: stable ? Math.round(0.4 + 2.6 * near ** 4 + 1.6 * Math.exp(-d / 1.5)) : null,
    ringFrequency: 6 + p * 0.32,
    damping: d > 3 && near < 0.6 ? null : Math.max(0.02, 0.62 - 0.55 * near),
    rise: 24 + 1250 / p,
    kick: 1.6 + 62 / p,
    recovery: 60 + 2400 / p,
    wobbleAngle: 0.8 + 46 / p + 0.9 * near ** 10,
    wobbleFrequency: 6 + p * 0.26,
    growth: (near - 1) * 14,
    oscillation: stable ? 1.5 * near : 320,
    limited: 2 + 18 * near ** 6,
    heat: 1.02 + 0.0125 * d * d + 0.1 * near ** 6,
    commandNoise: 0.02 * p + 0.84 * d,
  };
}

export const beyond = (id: MeasureId, value: number | null): boolean => {
  const limit = limits[id];
  return limit !== null && value !== null && value > limit;
};

export function reasonsAt(stable: boolean, values: Values): number {
  let bits = stable ? 0 : 1;
  for (const m of MEASURES)
    if (m.argues !== null && beyond(m.id, values[m.id])) bits |= 1 << VERDICTS.indexOf(m.argues);
  return bits;
}

export const worst = (bits: number): Verdict => VERDICTS.find((_, i) => (bits >> i) & 1) ?? "clean";

/** Gain margin in dB: how far P and D can be scaled together along the ray through the point. */
export function gainUp(loop: Loop, p: number, d: number): number | null {
  if (!inside(interval(loop, d, 1), p)) return null;
  for (let factor = 1; factor < 8; factor *= 1.01)
    if (!inside(interval(loop, d * factor, 1), p * factor)) return 20 * Math.log10(factor);
  return null;
}
