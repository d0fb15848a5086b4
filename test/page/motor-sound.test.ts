import { describe, expect, it } from "vitest";
import { motorSound } from "../../src/page/trial/motor-sound.js";

const RATE = 44_100;
const rotor = (speed: (time: number) => number, seconds = 1) =>
  Float64Array.from({ length: Math.round(seconds * 1000) + 1 }, (_, k) => speed(k / 1000));

/** Strength of a frequency in a sound (Goertzel's sum, written out), relative to full scale. */
function strength(sound: Float32Array, hertz: number, from = 0, to = sound.length): number {
  let [re, im] = [0, 0];
  for (let n = from; n < to; n++) {
    re += (sound[n] as number) * Math.cos((2 * Math.PI * hertz * n) / RATE);
    im += (sound[n] as number) * Math.sin((2 * Math.PI * hertz * n) / RATE);
  }
  return (2 * Math.hypot(re, im)) / (to - from);
}

describe("the motors' sound", () => {
  it("sings at the blades' passing: speed times blades", () => {
    const speed = 2 * Math.PI * 150; // 150 turns a second
    for (const blades of [2, 3]) {
      const sound = motorSound({ speeds: [rotor(() => speed)], period: 0.001, blades }, RATE);
      expect(sound).toHaveLength(RATE);
      const sung = strength(sound, 150 * blades);
      for (const other of [150 * blades * 0.9, 150 * blades * 1.1, 150 * blades * 1.5])
        expect(strength(sound, other)).toBeLessThan(0.05 * sung);
      expect(strength(sound, 150)).toBeLessThan(0.5 * sung);
      expect(strength(sound, 300 * blades)).toBeLessThan(0.6 * sung);
    }
  });

  it("rises in pitch and loudness as the rotors speed up", () => {
    const sound = motorSound(
      { speeds: [rotor((t) => 2 * Math.PI * (t < 0.5 ? 100 : 200))], period: 0.001, blades: 2 },
      RATE,
    );
    const [early, late] = [
      [2000, 20_000],
      [24_000, 42_000],
    ] as const;
    expect(strength(sound, 400, ...late)).toBeGreaterThan(3 * strength(sound, 200, ...early));
    expect(strength(sound, 400, ...late)).toBeGreaterThan(3 * strength(sound, 200, ...late)); // 200 turns a second
  });

  it("beats between rotors that differ, as two motors a little apart do", () => {
    const speeds = [rotor(() => 2 * Math.PI * 100), rotor(() => 2 * Math.PI * 102)];
    const sound = motorSound({ speeds, period: 0.001, blades: 2 }, RATE);
    // 200 and 204 Hz meet every quarter of a second, and cancel half way between.
    const loud = (second: number) =>
      strength(sound, 202, Math.round((second - 0.02) * RATE), Math.round((second + 0.02) * RATE));
    expect(loud(0.375)).toBeLessThan(0.3 * loud(0.25));
    expect(loud(0.625)).toBeLessThan(0.3 * loud(0.5));
  });

  it("never leaves full scale, begins and ends in silence, and says nothing of rotors that stand", () => {
    const sound = motorSound({ speeds: [rotor(() => 900), rotor(() => 1000)], period: 0.001, blades: 2 }, RATE);
    expect(sound.every((value) => Math.abs(value) <= 0.9)).toBe(true);
    expect([sound[0], sound.at(-1)]).toEqual([0, 0]);
    const still = motorSound({ speeds: [rotor(() => 0)], period: 0.001, blades: 2 }, RATE);
    expect(still.every((value) => value === 0)).toBe(true);
  });
});
