// A recorded trial with what is read of it: where it is judged, what is left as it ends, what of it is heard.
import type { Airframe } from "../../airframe/airframe.js";
import type { Variant } from "../../plan/plan.js";
import type { PlainTrials } from "../../run/plain.js";
import type { Scene } from "./display.js";
import { listenWords } from "./listen-words.js";
import type { Recording, Stretch } from "./recording.js";
import { rotorBands, spectrumOf } from "./spectrum.js";
import type { Trial } from "./trial.js";

export function sceneOf({ question }: PlainTrials, { sensing }: Airframe, recording: Recording): Scene {
  const { window, tail, period } = question;
  const seconds = ({ from, to }: Stretch): Stretch => ({ from: from * period, to: to * period });
  const ending = seconds(tail);
  const harmonics = sensing.vibration.map(({ harmonic }) => harmonic);
  const isLost = recording.command.length * recording.period < ending.to - recording.period;
  return {
    recording,
    judged: seconds(window),
    ending,
    spectrum: isLost
      ? null
      : spectrumOf(recording.trace, tail, period, rotorBands(recording.speeds, samples(recording, ending), harmonics)),
  };
}

const samples = ({ period }: Recording, { from, to }: Stretch): Stretch => ({
  from: Math.floor(from / period),
  to: Math.ceil(to / period),
});

/** What to listen for; "" where the craft is lost. */
export function heardWords(
  { propeller: { blades } }: Airframe,
  { script: { kind } }: Variant,
  trial: Trial,
  { recording, ending, spectrum }: Scene,
): string {
  if (spectrum === null) return "";
  const { from, to } = samples(recording, ending);
  const speeds = recording.speeds.flatMap((series) => [...series.subarray(from, to)]);
  const turning = speeds.reduce((sum, speed) => sum + speed, 0) / Math.max(1, speeds.length) / 2 / Math.PI;
  return listenWords({ kind, trial, spectrum, turning, blades });
}
