// What the motors would sound like: each rotor hums at its turning rate and sings at its blades' passing, louder the
// faster it turns. Made from the simulated rotor speeds alone.

const TURNING = 0.12; // loudness of the turning rate itself
const PASSING = Object.freeze([0.5, 0.22, 0.12]); // of the blades' passing and its multiples
const LOUDEST = 0.9; // of full scale, at the loudest moment
const FADE = 0.02; // s, in and out, so that nothing clicks

export interface Rotors {
  /** rad/s, one series per rotor. */
  readonly speeds: readonly Float64Array[];
  readonly period: number; // s
  readonly blades: number;
}

/** Samples between -1 and 1 at `rate` per second. */
export function motorSound({ speeds, period, blades }: Rotors, rate: number): Float32Array<ArrayBuffer> {
  const seconds = ((speeds[0]?.length ?? 0) - 1) * period;
  const sound = new Float32Array(Math.max(0, Math.floor(seconds * rate)));
  for (const speed of speeds) addRotor(sound, speed, period, blades, rate);
  const most = sound.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  const fade = FADE * rate;
  for (let n = 0; n < sound.length; n++) {
    const edge = Math.min(1, n / fade, (sound.length - 1 - n) / fade);
    sound[n] = most === 0 ? 0 : (LOUDEST * edge * (sound[n] as number)) / most;
  }
  return sound;
}

function addRotor(sound: Float32Array, speed: Float64Array, period: number, blades: number, rate: number): void {
  let angle = 0;
  for (let n = 0; n < sound.length; n++) {
    const place = n / rate / period;
    const before = Math.floor(place);
    const from = speed[before] as number;
    const now = from + (place - before) * ((speed[before + 1] ?? from) - from);
    angle += now / rate;
    let value = TURNING * Math.sin(angle);
    for (const [k, loudness] of PASSING.entries()) value += loudness * Math.sin((k + 1) * blades * angle);
    sound[n] = (sound[n] as number) + value * now * now;
  }
}
