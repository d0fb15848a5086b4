// One row a pair: who, what came of it, the worst gate, and what changed.
import { gateOf } from "../../base/gates.js";
import { outcomeWords, sidesWords, unjudgedWords } from "../../words/drift-words.js";
import { allowedWords, readingWords, subjectWords } from "../../words/gate-words.js";
import { causeWords, type NightPair, tellingGate } from "./night.js";

export interface NightRow {
  readonly regression: boolean;
  readonly sides: string;
  readonly sweep: string;
  readonly outcome: string;
  /** The gravest gate that failed, or the one that came nearest to it, with what it allows. */
  readonly worst: string;
  readonly why: string;
  readonly unjudged: string | null;
}

export function nightRow({ drift }: NightPair): NightRow {
  return {
    regression: drift.outcome === "regression",
    sides: sidesWords(drift),
    sweep: `${drift.sweep.title} (${drift.sweep.name})`,
    outcome: outcomeWords(drift),
    worst: worstWords(drift),
    why: causeWords(drift, tellingGate(drift)),
    unjudged: unjudgedWords(drift),
  };
}

function worstWords(drift: NightPair["drift"]): string {
  const telling = tellingGate(drift);
  if (telling !== null)
    return `${subjectWords(telling)}: ${gateOf(telling.gate).title}, ${readingWords(drift, telling)} (allowed: ${allowedWords(telling)})`;
  const judged = drift.gates.some(({ outcome }) => outcome === "pass");
  return judged ? "nothing moved towards a limit" : "no gate judged";
}

/** Regressions first, otherwise in the order of the command. */
export const worstFirst = (pairs: readonly NightPair[]): NightPair[] =>
  [...pairs].sort((a, b) => Number(b.drift.outcome === "regression") - Number(a.drift.outcome === "regression"));
