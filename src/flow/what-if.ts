// A model and the same model changed, compared by theory alone; with spreads, how far each number may be off.
import type { Airframe } from "../airframe/airframe.js";
import { drawsOf } from "../airframe/draws.js";
import { at } from "../base/at.js";
import { InputError } from "../base/problem.js";
import { whatIf, whatIfDrawn } from "../sheet/what-if.js";
import { type WhatIfAnswer, whatIfAnswer } from "../sheet/what-if-answer.js";
import type { WithDocument } from "./read.js";

const DRAWS = 24;
const SEED = 1;
/** What is not modelled, as sweeps assume it where they say nothing else. */
const LOOP_GAIN = 0.1;

/** Some seconds of theory; what was not changed is drawn alike in both, so that it does not blur the difference. */
export function whatIfChanged(before: WithDocument<Airframe>, after: WithDocument<Airframe>): WhatIfAnswer {
  const nominal = whatIf(before.value, after.value);
  const [from, to] = [drawnFrom(before), drawnFrom(after)];
  const pairs = Math.min(from.length, to.length);
  const drawn = Array.from({ length: pairs }, (_, k) => whatIfDrawn(at(from, k), at(to, k), nominal));
  return whatIfAnswer(nominal, drawn);
}

/** None where hardly any craft within the spreads can hover: the answer is then given without a ±. */
function drawnFrom({ value, document }: WithDocument<Airframe>): readonly Airframe[] {
  if (value.spreads === undefined) return [];
  const options = { count: DRAWS, seed: SEED, purpose: "what if", loopGain: LOOP_GAIN };
  try {
    return drawsOf(document, options).draws.map(({ airframe }) => airframe);
  } catch (error) {
    if (error instanceof InputError) return [];
    throw error;
  }
}
