// Grid point by grid point: safe ground both, lost and gained, verdicts worsened and improved, and their limiting cases.
import { VERDICTS, type Verdict } from "../base/measures.js";
import { byTheory, limitingCaseBy } from "../map/decider.js";
import type { AxisMap, StabilityMap } from "../map/format.js";
import type { Axis, SafeDrift, VerdictCause, VerdictDrift } from "./format.js";
import { change } from "./shift.js";

export function safeDrift(base: AxisMap, candidate: AxisMap): SafeDrift {
  const points = base.safe.map((row, i) => row.map((was, j) => letter(was, candidate.safe[i]?.[j] === true)).join(""));
  const count = (code: string) => points.join("").split(code).length - 1;
  const [both, lost, gained] = [count("b"), count("l"), count("g")];
  const [before, after] = [both + lost, both + gained];
  const percent = before === 0 ? null : change(before, after);
  return { of: base.safe.flat().length, before, after, both, lost, gained, percent, points };
}

function letter(was: boolean, is: boolean): "b" | "l" | "g" | "." {
  if (was) return is ? "b" : "l";
  return is ? "g" : ".";
}

interface Pair {
  readonly from: Verdict;
  readonly to: Verdict;
  readonly wasSafe: boolean;
  /** Variants that decided: index, -1 where clean. */
  readonly by: readonly [before: number, after: number];
}

function pairsOf(base: AxisMap, candidate: AxisMap): Pair[] {
  return base.verdict.flatMap((row, i) =>
    row.map((from, j): Pair => {
      const by = [base.decidedBy[i]?.[j] ?? -1, candidate.decidedBy[i]?.[j] ?? -1] as const;
      return { from, to: candidate.verdict[i]?.[j] ?? from, wasSafe: base.safe[i]?.[j] === true, by };
    }),
  );
}

const severity = (verdict: Verdict): number => VERDICTS.length - VERDICTS.indexOf(verdict);
const worse = ({ from, to }: Pair): boolean => severity(to) > severity(from);
const better = ({ from, to }: Pair): boolean => severity(to) < severity(from);

export function verdictDrift(axis: Axis, base: StabilityMap, candidate: StabilityMap): VerdictDrift {
  const pairs = pairsOf(base.axes[axis], candidate.axes[axis]);
  const [worsened, improved] = [pairs.filter(worse), pairs.filter(better)];
  return {
    worsened: worsened.length,
    improved: improved.length,
    same: pairs.length - worsened.length - improved.length,
    newSustained: pairs.filter(({ wasSafe, to }) => wasSafe && to === "sustained").length,
    causes: causesOf(candidate, worsened, improved),
    changes: changesOf([...worsened, ...improved]),
  };
}

/** What decides a worsened point now, and what decided an improved one before: variants, and theory at their levels. */
function causesOf({ variants }: StabilityMap, worsened: readonly Pair[], improved: readonly Pair[]): VerdictCause[] {
  const accumulate = (pairs: readonly Pair[], side: 0 | 1, code: number) =>
    pairs.filter(({ by }) => by[side] === code).length;
  const codes = [...variants.keys()];
  return [...codes, ...codes.map(byTheory)]
    .flatMap((code) => {
      const points = { worsened: accumulate(worsened, 1, code), improved: accumulate(improved, 0, code) };
      const cause = points.worsened + points.improved === 0 ? null : limitingCaseBy(code, (index) => variants[index]);
      return cause === null ? [] : [{ ...cause, ...points }];
    })
    .sort((a, b) => b.worsened - a.worsened || b.improved - a.improved);
}

function changesOf(pairs: readonly Pair[]): VerdictDrift["changes"] {
  return VERDICTS.flatMap((from) =>
    VERDICTS.map((to) => ({ from, to, points: pairs.filter((pair) => pair.from === from && pair.to === to).length })),
  )
    .filter(({ points }) => points > 0)
    .sort((a, b) => b.points - a.points);
}
