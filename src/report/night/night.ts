// What a gate compared, pair by pair, as its front page and its summaries read it.
import { GATES } from "../../base/gates.js";
import type { Drift, GateResult } from "../../compare/format.js";
import { toThreeDigits } from "../../words/numbers.js";
import { gateWhy, whyLine } from "../../words/why-words.js";

/** A comparison of a gate and where it stands. */
export interface NightPair {
  readonly drift: Drift;
  /** Of its files, from the gate's own folder, with forward slashes. */
  readonly folder: string;
  /** What somebody looks at first: the line of the candidate's file that changed most. */
  readonly changed: ChangedLine | null;
}

export interface ChangedLine {
  readonly file: string; // as the command named it
  readonly line: number;
  readonly column: number;
  readonly key: string;
}

/**
 * The result that says most of a comparison: the gravest that failed, else the one nearest to what is allowed; null where
 * nothing moved towards it.
 */
export function tellingGate({ gates }: Drift): GateResult | null {
  const failed = GATES.flatMap(({ id }) =>
    gates.filter(({ gate, outcome }) => gate === id && outcome === "fail").sort((a, b) => used(b) - used(a)),
  );
  const passed = gates.filter((one) => one.outcome === "pass" && used(one) > 0).sort((a, b) => used(b) - used(a));
  return failed[0] ?? passed[0] ?? null;
}

/** How much of what a gate allows was used; infinite where it allows nothing and something was seen. */
function used({ value, threshold }: GateResult): number {
  if (value === null || threshold === null || value <= 0) return 0;
  return threshold === 0 ? Number.POSITIVE_INFINITY : value / threshold;
}

/** Of the pairs, so many regressions and so many gates that were wanted and not judged. */
export function nightCounts(pairs: readonly NightPair[]) {
  const gates = pairs.flatMap(({ drift }) => drift.gates);
  return {
    pairs: pairs.length,
    regressions: pairs.filter(({ drift }) => drift.outcome === "regression").length,
    gates: gates.length,
    skipped: gates.filter(({ skipReason }) => skipReason !== null && skipReason !== "switched off").length,
  };
}

/** Which change moved what the gate looks at; where theory cannot say, what changed. */
export const causeWords = (drift: Drift, result: GateResult | null): string =>
  (result === null ? null : gateWhy(drift, result)) ?? whyLine(drift) ?? changesWords(drift);

/** "motor.kv 1950 rpm/V → 2010 rpm/V", and how many more; "nothing" where the models are the same. */
export function changesWords({ model }: Pick<Drift, "model">, most = 3): string {
  if (model.length === 0) return "nothing";
  const first = model.slice(0, most).map(({ key, before, after }) => {
    return `${key} ${before ?? "absent"} \u2192 ${after ?? "absent"}`;
  });
  const more = model.length - first.length;
  return `${first.join(", ")}${more === 0 ? "" : `, and ${toThreeDigits(more)} more`}`;
}
