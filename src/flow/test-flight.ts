// Single flights with their traces, through the plain kernel: what a pilot would see, thinned for a picture.
import { MEASURE_IDS, type MeasureId } from "../base/measures.js";
import { DEGREES, tidy } from "../map/people.js";
import type { Plan, Variant } from "../plan/plan.js";
import { emptyAnswers, type Question } from "../response/answer.js";
import { attitudeDeviation } from "../response/deviation.js";
import { lineThrough } from "../response/line.js";
import { flyPlain, type PlainBench, plainBench } from "../run/plain.js";

const SHOWN_PERIOD = 0.005; // s, between two samples of a picture
const BEFORE_STOP = 0.1; // s, shown before a commanded rate has ended
const AFTER_STOP = 0.5; // s

/** The stretch of a variant's flights that is shown, and what is commanded in it. */
export interface Shown {
  readonly from: number; // s, from the moment that is judged
  readonly period: number; // s
  readonly command: readonly number[]; // deg/s
}

export interface TestFlight {
  readonly diesOut: boolean;
  readonly rate: readonly number[]; // deg/s
  readonly angle: readonly number[] | null; // deg off the commanded course; null for a stop
  readonly measures: Readonly<Partial<Record<MeasureId, number | null>>>; // those this kind of flight shows
}

export interface TestFlights {
  readonly shown: (variant: Variant) => Shown;
  /** SI gains. */
  readonly fly: (variant: Variant, p: number, d: number) => TestFlight;
}

/** Flights of a plan; what all flights of a variant share is made once. */
export function testFlights(plan: Plan): TestFlights {
  const benches = new Map<number, PlainBench>();
  const benchOf = (variant: Variant): PlainBench => {
    const bench = benches.get(variant.index) ?? plainBench(plan, variant);
    benches.set(variant.index, bench);
    return bench;
  };
  return {
    shown: (variant) => shownOf(benchOf(variant)),
    fly: (variant, p, d) => flown(benchOf(variant), p, d),
  };
}

function flown(bench: PlainBench, p: number, d: number): TestFlight {
  const { question, scratch } = bench;
  const answers = emptyAnswers();
  const outcome = flyPlain(bench, p, d, answers);
  const measures = MEASURE_IDS.map((id, k) => [id, answers.absent[k] === 0 ? tidy(answers.values[k]) : null] as const);
  return {
    diesOut: outcome === "dies out" || outcome === "at rest",
    rate: thinned(scratch.trace, stretchOf(question)),
    angle: question.kind === "stop" ? null : angleOf(scratch.trace, question),
    measures: Object.fromEntries(measures),
  };
}

interface Stretch {
  readonly from: number; // control periods
  readonly to: number;
  readonly each: number; // per sample
}

function stretchOf({ kind, window, period }: Question): Stretch {
  const each = Math.max(1, Math.round(SHOWN_PERIOD / period));
  if (kind !== "stop") return { ...window, each };
  const from = Math.max(0, window.from - Math.round(BEFORE_STOP / period));
  return { from, to: Math.min(window.to, window.from + Math.round(AFTER_STOP / period)), each };
}

function shownOf({ question }: PlainBench): Shown {
  const { from, to, each } = stretchOf(question);
  const { period, window, command } = question;
  const start = (from - window.from + each / 2) * period;
  return { from: tidy(start), period: tidy(each * period), command: thinned(command, { from, to, each }) };
}

/** A wobble is shown about the best straight line: a drift is not a wobble. */
function angleOf(trace: Float64Array, question: Question): number[] {
  const { command, window, period, kind } = question;
  const room = new Float64Array(window.to - window.from);
  const angle = attitudeDeviation(trace, command, window.from, window.to, period, room);
  if (kind === "wobble") {
    const { mean, slope } = lineThrough(angle, 0, angle.length);
    for (let k = 0; k < angle.length; k++) angle[k] -= mean + slope * (k - 0.5 * (angle.length - 1));
  }
  return thinned(angle, { ...stretchOf(question), from: 0, to: angle.length });
}

/** Means over each sample's period, in degrees, to what a picture shows. */
function thinned(values: Float64Array, { from, to, each }: Stretch): number[] {
  const count = Math.floor((to - from) / each);
  return Array.from({ length: count }, (_, k) => {
    let sum = 0;
    for (let i = 0; i < each; i++) sum += values[from + k * each + i];
    return Number(((DEGREES * sum) / each).toPrecision(3));
  });
}
