// One trial's trace to its answers, and whether its oscillation dies out.
import { MEASURE_IDS } from "../base/measures.js";
import { SCRIPT_KINDS } from "../base/script-kinds.js";
import { type Absence, type Answers, clear, put, type Question, type Recording } from "./answer.js";
import { kickOf, wobbleOf } from "./deviation.js";
import { stopResponse } from "./stop.js";
import { FEWEST_HALF_CYCLES, isSustained, QUIET, VANISHED } from "./sustained.js";
import { amplitudeOf, ringOf, type Swing, swingOf } from "./swing.js";

/** How a trial ended. A diverged one has no measures; one at rest, whose axis nothing moved, has none and says nothing. */
export type Outcome = "dies out" | "sustained" | "diverged" | "at rest";

const DEGREES = 180 / Math.PI;
/** rad/s beyond which a trial has diverged: no rate loop works there. */
const DIVERGED_RATE = 1e4;

/** Answers the question from the recording into `answers`. */
export function evaluateTrial(question: Question, recording: Recording, answers: Answers): Outcome {
  clear(answers);
  const { trace, reader, fastest } = recording;
  if (!(fastest < DIVERGED_RATE * DIVERGED_RATE) && divergedAt(trace) !== null) {
    for (const id of MEASURE_IDS) put(answers, id, "the trial diverged");
    return "diverged";
  }
  if (fastest <= VANISHED * VANISHED) {
    for (const id of MEASURE_IDS) put(answers, id, "the axis did not move");
    return "at rest";
  }
  const { period, window, tail } = question;
  const amplitude = amplitudeOf(reader, tail.from, tail.to);
  const swings = amplitude > (SCRIPT_KINDS[question.kind].smallSignal ? VANISHED : QUIET);
  // Below the amplitude of a swing nothing more is measured: most trials end calm.
  const swing = swings ? swingOf(recording, tail.from, tail.to, period, amplitude) : null;
  put(answers, "growth", growthOf(swing));
  put(answers, "oscillation", DEGREES * amplitude);
  put(answers, "limited", (100 * recording.limited) / (window.to - window.from));
  byKind[question.kind](question, recording, answers);
  return swing !== null && isSustained(swing, question.kind) ? "sustained" : "dies out";
}

/** Read from less than the fewest half-cycles it is the phase of a slow swing, not its growth. */
function growthOf(swing: Swing | null): number | Absence {
  if (swing === null || !Number.isFinite(swing.growth)) return "no swing to measure";
  return swing.halfCycles < FEWEST_HALF_CYCLES ? "too few swings to count" : swing.growth;
}

/** The control period at which a trace diverges, or null. */
export function divergedAt(trace: Float64Array): number | null {
  const at = trace.findIndex((rate) => !(Math.abs(rate) < DIVERGED_RATE));
  return at < 0 ? null : at;
}

type Reader = (question: Question, recording: Recording, answers: Answers) => void;

const byKind: Readonly<Record<Question["kind"], Reader>> = {
  nudge: ({ window, tail, period }, { reader }, answers) => {
    const frequency = ringOf(reader, window.from, tail.to, period);
    put(answers, "ringFrequency", frequency > 0 ? frequency : "too few swings to count");
  },
  stop: (question, { trace }, answers) => {
    if (question.stop === null) return;
    const { from, to } = question.window;
    const response = stopResponse(trace, question.stop.level, question.stop.from, from, to, question.period);
    for (const id of ["overshoot", "settling", "rebounds", "ringFrequency", "damping", "rise"] as const)
      put(answers, id, response[id]);
  },
  blip: ({ window: { from, to }, command, period }, { reader }, answers) => {
    const { angle, recovery } = kickOf(reader, command, from, to, period);
    put(answers, "kick", DEGREES * angle);
    put(answers, "recovery", recovery);
  },
  wobble: ({ window: { from, to }, command, period }, recording, answers) => {
    const { rms, frequency } = wobbleOf(recording, command, from, to, period);
    put(answers, "wobbleAngle", DEGREES * rms);
    put(answers, "wobbleFrequency", frequency > 0 ? frequency : "too few swings to count");
  },
  hover: ({ restHeat }, { effort }, answers) => {
    if (effort === null) return;
    put(answers, "heat", restHeat > 0 ? effort.heat / restHeat : "no swing to measure");
    put(answers, "commandNoise", 100 * effort.commandRms);
  },
};
