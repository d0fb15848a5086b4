// One trial's trace to its answers, and whether its oscillation dies out.
import { MEASURE_IDS } from "../base/measures.js";
import { type Answers, clear, put, type Question, type Recording } from "./answer.js";
import { attitudeDeviation, kickOf, recoveryTime, wobbleFrequency, wobbleRms } from "./deviation.js";
import { stopResponse } from "./stop.js";
import { isSustained, QUIET, VANISHED } from "./sustained.js";
import { amplitudeOf, swingOf } from "./swing.js";

/** How a trial ended; a diverged one has no measures. */
export type Outcome = "dies out" | "sustained" | "diverged";

const DEGREES = 180 / Math.PI;
/** rad/s beyond which no rate loop flies: the numbers have left the model. */
const BEYOND = 1e4;

/** Answers the question from the recording into `answers`; `buffer` is room for as many numbers as the trace has. */
export function respond(question: Question, recording: Recording, answers: Answers, buffer: Float64Array): Outcome {
  clear(answers);
  const { trace } = recording;
  if (divergedAt(trace) !== null) {
    for (const id of MEASURE_IDS) put(answers, id, "the trial diverged");
    return "diverged";
  }
  const { period, window, tail } = question;
  const amplitude = amplitudeOf(trace, tail.from, tail.to);
  const swings = amplitude > (question.kind === "nudge" ? VANISHED : QUIET);
  // What counts for no swing is asked nothing more, but for a nudge's frequency: most trials end calm.
  const swing =
    swings || question.kind === "nudge" ? swingOf(trace, tail.from, tail.to, period, buffer, amplitude) : null;
  const grows = swings && swing !== null && Number.isFinite(swing.growth);
  put(answers, "growth", grows ? swing.growth : "no swing to measure");
  put(answers, "oscillation", DEGREES * amplitude);
  put(answers, "limited", (100 * recording.limited) / (window.to - window.from));
  byKind[question.kind](question, recording, answers, buffer);
  if (swing === null) return "dies out";
  if (question.kind === "nudge")
    put(answers, "ringFrequency", swing.frequency > 0 ? swing.frequency : "too few swings to count");
  return isSustained(swing, question.kind) ? "sustained" : "dies out";
}

/** The control period at which a trace leaves the numbers, or null. */
export function divergedAt(trace: Float64Array): number | null {
  const { length } = trace;
  let k = 0;
  // Eight at once, added: where the sum is small, each of them is, and where one is no number, neither is the sum.
  for (; k + 8 <= length; k += 8) {
    const first = Math.abs(trace[k]) + Math.abs(trace[k + 1]) + (Math.abs(trace[k + 2]) + Math.abs(trace[k + 3]));
    const second = Math.abs(trace[k + 4]) + Math.abs(trace[k + 5]) + (Math.abs(trace[k + 6]) + Math.abs(trace[k + 7]));
    if (!(first + second < BEYOND)) break;
  }
  for (; k < length; k++) if (!(Math.abs(trace[k]) < BEYOND)) return k;
  return null;
}

type Reader = (question: Question, recording: Recording, answers: Answers, buffer: Float64Array) => void;

const byKind: Readonly<Record<Question["kind"], Reader>> = {
  nudge: () => {},
  stop: (question, { trace }, answers) => {
    if (question.stop === null) return;
    const { from, to } = question.window;
    const response = stopResponse(trace, question.stop.level, question.stop.from, from, to, question.period);
    for (const id of ["overshoot", "settling", "rebounds", "ringFrequency", "damping", "rise"] as const)
      put(answers, id, response[id]);
  },
  blip: ({ window: { from, to }, command, period }, { trace }, answers) => {
    const { angle, error } = kickOf(trace, command, from, to, period);
    put(answers, "kick", DEGREES * angle);
    put(answers, "recovery", recoveryTime(trace, command, from, to, period, error));
  },
  wobble: (question, { trace }, answers, buffer) => {
    const { from, to } = question.window;
    const angle = attitudeDeviation(trace, question.command, from, to, question.period, buffer);
    put(answers, "wobbleAngle", DEGREES * wobbleRms(angle));
    const frequency = wobbleFrequency(trace, question.command, from, to, question.period, buffer);
    put(answers, "wobbleFrequency", frequency > 0 ? frequency : "too few swings to count");
  },
  hover: (question, { heat, commandRms }, answers) => {
    put(answers, "heat", question.restHeat > 0 ? heat / question.restHeat : "no swing to measure");
    put(answers, "commandNoise", 100 * commandRms);
  },
};
