// What to look and listen for in a trial, and what in it is the rotors' and not the loop's. Common practice, no source.
import type { ScriptKind } from "../../base/script-kinds.js";
import { toThreeDigits, withUnit } from "../../words/numbers.js";
import type { Spectrum } from "./spectrum.js";
import type { Trial } from "./trial.js";

const DEGREES = 180 / Math.PI;
const RATE_UNIT = "\u00b0/s";

/** Hz; slower swings are counted by ear, quicker ones are a tone. */
const COUNTED = 20;

export interface Heard {
  readonly kind: ScriptKind;
  readonly trial: Trial;
  readonly spectrum: Spectrum;
  /** Hz, the rotors' mean turning as the trial ends. */
  readonly turning: number;
  readonly blades: number;
}

export function listenWords({ kind, trial, spectrum, turning, blades }: Heard): string {
  const note =
    turning > 0
      ? `The steady note is the blades passing, ${whole(blades * turning)} a second (the rotors turn ${whole(turning)} times): it belongs there. `
      : "";
  return `${note}${trial.outcome === "sustained" ? lastingWords(spectrum.loop.strongest) : OF_KIND[kind](trial)}`;
}

const whole = (value: number): string => toThreeDigits(Math.round(value));

const lastingWords = (hertz: number): string =>
  hertz < COUNTED
    ? `Listen for a waver on it, ${toThreeDigits(hertz)} times a second, that goes on after the manoeuvre: that is the loop.`
    : `Listen for a growl on it, ${withUnit(hertz, "Hz")}, that goes on after the manoeuvre: that is the loop.`;

const OF_KIND: Readonly<Record<ScriptKind, (trial: Trial) => string>> = {
  nudge: () => "The kick is too small to be heard: the picture shows it.",
  stop: ({ measures: { rebounds } }) => {
    const counted = rebounds === null ? "" : ` Here there ${rebounds === 1 ? "is" : "are"} ${toThreeDigits(rebounds)}.`;
    return `Listen as the craft stops: one clean swoop is a good stop, each one after it a rebound.${counted}`;
  },
  blip: () =>
    "Listen as the throttle comes back: the notes should settle at once. A waver after it is the loop ringing.",
  wobble: () => "In disturbed air the notes waver apart. Listen how soon they come together again once it is over.",
  hover: () => "A clean hum is good. Hiss or grit on it is noise that the motors run after, and it heats them.",
};

/** How much of what is left as the trial ends is the loop's, how much the rotors'. */
export function leftWords({ loop, rotors, lines }: Spectrum): string {
  const own = `${withUnit(DEGREES * loop.rms, RATE_UNIT)} rms of the loop itself, strongest at ${withUnit(loop.strongest, "Hz")}`;
  if (lines.length === 0) return `Left at the end: ${own}.`;
  const bands = lines.map(({ from, to }) => `${whole(from)} to ${whole(to)}`).join(", ");
  const most = rotors.rms > loop.rms ? " Most of it is the rotors' vibration, not the loop." : "";
  return `Left at the end: ${own}; ${withUnit(DEGREES * rotors.rms, RATE_UNIT)} rms of the rotors' vibration, at ${bands}\u00a0Hz.${most}`;
}
