// Single trials with their traces: what a pilot would see, averaged for a picture.
import { at } from "../base/at.js";
import { canonicalJson } from "../base/canonical.js";
import { MEASURE_IDS, type MeasureId } from "../base/measures.js";
import { SCRIPT_KINDS } from "../base/script-kinds.js";
import { driveOf } from "../kernel/drive.js";
import { loadVectorKernel } from "../kernel/load-vector.js";
import { noiseInto, noiseKey, noiseLength } from "../kernel/noise.js";
import { type Rig, rigOf } from "../kernel/rig.js";
import { simulateManyOf } from "../kernel/simulate-trial.js";
import type { VectorKernel } from "../kernel/vector.js";
import { DEGREES, roundToTwelveDigits } from "../map/display-units.js";
import type { Plan, Variant } from "../plan/plan.js";
import { emptyAnswers, type Question } from "../response/answer.js";
import { attitudeDeviation } from "../response/deviation.js";
import { lineThrough } from "../response/line.js";
import { evaluateTrial } from "../response/respond.js";
import { kernelsOf } from "../run/kernels.js";
import { sharedSetups } from "../run/plan-memory.js";
import { questionOf } from "../run/question.js";
import type { TrialSetup } from "../run/setup-cache.js";

const SHOWN_PERIOD = 0.005; // s, between two samples of a picture
const BEFORE_STOP = 0.1; // s, shown before a commanded rate has ended
const AFTER_STOP = 0.5; // s

/** The part of a variant's trials that is shown, and what is commanded in it. */
export interface PictureSpan {
  readonly from: number; // s, from the moment that is judged
  readonly period: number; // s
  readonly command: readonly number[]; // deg/s
}

export interface TracedTrial {
  readonly diesOut: boolean;
  readonly rate: readonly number[]; // deg/s
  readonly angle: readonly number[] | null; // deg off the commanded course; null for a stop
  readonly measures: Readonly<Partial<Record<MeasureId, number | null>>>; // those this kind of script shows
}

export interface TracedTrials {
  readonly span: (variant: Variant) => PictureSpan;
  /** SI gains. */
  readonly simulate: (variant: Variant, p: number, d: number) => TracedTrial;
}

/** Trials of a plan; the setup of a variant is made once. */
export function tracedTrials(plan: Plan): TracedTrials {
  // By the object: a gentler variant has the index of the plan's own.
  const byVariant = new Map<Variant, TrialSetup>();
  const rigFor = rigsOfManoeuvres(plan);
  const setupOf = (variant: Variant): TrialSetup => {
    const setup = byVariant.get(variant) ?? setUp(variant, rigFor(variant));
    byVariant.set(variant, setup);
    return setup;
  };
  const kernelOf = kernelsOf(loadVectorKernel);
  return {
    span: (variant) => pictureSpanOf(setupOf(variant).question),
    simulate: (variant, p, d) => {
      const setup = setupOf(variant);
      return tracedTrial(setup, kernelOf(setup.rig), p, d);
    },
  };
}

const setUp = (variant: Variant, rig: Rig): TrialSetup => ({ rig, question: questionOf(variant, rig) });

/** The rig of a variant: with the drive of the plan's own; a gentler one's noise, which no axis changes, is drawn once for both. */
function rigsOfManoeuvres(plan: Plan): (variant: Variant) => Rig {
  const shared = sharedSetups(plan);
  const gentler = new Map<string, Float64Array>();
  const drawNoise = (variant: Variant) => noiseInto(new Float64Array(noiseLength(plan, variant)), plan, variant);
  const gentlerNoise = (variant: Variant): Float64Array => {
    const { throttle, descent } = variant.script;
    const key = canonicalJson([noiseKey(variant), throttle, descent]);
    const noise = gentler.get(key) ?? drawNoise(variant);
    gentler.set(key, noise);
    return noise;
  };
  const ownNoise = (variant: Variant) => shared.noise(variant.index) ?? drawNoise(variant);
  return (variant) => {
    const isOwn = plan.variants[variant.index] === variant;
    const drive = isOwn ? shared.drives(variant.index, () => ownNoise(variant)) : null;
    const noise = () => (isOwn || movesNoThrottle(variant) ? ownNoise(variant) : gentlerNoise(variant));
    return rigOf(plan, variant, (shape) => drive ?? driveOf(plan, variant, shape, noise()));
  };
}

/** Noise follows rotors and descent: where a gentler variant leaves both as they are, it meets the noise of the plan's own. */
const movesNoThrottle = ({ script, throttle }: Variant): boolean =>
  script.descent.length === 0 && script.throttle.every(([, value]) => value.kind === "duty" && value.duty === throttle);

function tracedTrial({ rig, question }: TrialSetup, kernel: VectorKernel | null, p: number, d: number): TracedTrial {
  const answers = emptyAnswers();
  const traced: TracedTrial[] = [];
  // Mounted anew for each trial: a kernel's memory holds one rig at a time.
  const simulate = simulateManyOf(rig, kernel);
  simulate({ p: Float64Array.of(p), d: Float64Array.of(d) }, question.window, (_, recording) => {
    const outcome = evaluateTrial(question, recording, answers);
    const measures = MEASURE_IDS.map(
      (id, k) => [id, answers.absent[k] === 0 ? roundToTwelveDigits(at(answers.values, k)) : null] as const,
    );
    traced.push({
      diesOut: outcome === "dies out" || outcome === "at rest",
      rate: averaged(recording.trace, sampleSpanOf(question)),
      angle: drawnOf(question) === "rate" ? null : angleOf(recording.trace, question),
      measures: Object.fromEntries(measures),
    });
  });
  return at(traced, 0);
}

interface SampleSpan {
  readonly from: number; // control periods
  readonly to: number;
  readonly each: number; // per sample
}

/** Steady hover is simulated for its measures alone. */
const drawnOf = ({ kind }: Question) => SCRIPT_KINDS[kind].ladder?.draws ?? "angle";

function sampleSpanOf(question: Question): SampleSpan {
  const { window, period } = question;
  const each = Math.max(1, Math.round(SHOWN_PERIOD / period));
  if (drawnOf(question) !== "rate") return { ...window, each };
  const from = Math.max(0, window.from - Math.round(BEFORE_STOP / period));
  return { from, to: Math.min(window.to, window.from + Math.round(AFTER_STOP / period)), each };
}

function pictureSpanOf(question: Question): PictureSpan {
  const { from, to, each } = sampleSpanOf(question);
  const { period, window, command } = question;
  const start = (from - window.from + each / 2) * period;
  return {
    from: roundToTwelveDigits(start),
    period: roundToTwelveDigits(each * period),
    command: averaged(command, { from, to, each }),
  };
}

/** A wobble is shown about the best straight line: a drift is not a wobble. */
function angleOf(trace: Float64Array, question: Question): number[] {
  const { command, window, period } = question;
  const room = new Float64Array(window.to - window.from);
  const angle = attitudeDeviation(trace, command, window.from, window.to, period, room);
  if (drawnOf(question) === "angle about its drift") {
    const { mean, slope } = lineThrough(angle, 0, angle.length);
    angle.forEach((value, k) => {
      angle[k] = value - (mean + slope * (k - 0.5 * (angle.length - 1)));
    });
  }
  return averaged(angle, { ...sampleSpanOf(question), from: 0, to: angle.length });
}

/** Means over each sample's period, in degrees, to what a picture shows. */
function averaged(values: Float64Array, { from, to, each }: SampleSpan): number[] {
  const count = Math.floor((to - from) / each);
  return Array.from({ length: count }, (_, k) => {
    let sum = 0;
    for (let i = 0; i < each; i++) sum += at(values, from + k * each + i);
    return Number(((DEGREES * sum) / each).toPrecision(3));
  });
}
