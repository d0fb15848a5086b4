// Correlations as a model file has them: pairs, few and round. What a fit knows best is a combination of numbers, such as a
// ratio, and rounding spoils that first: pairs rounded to two digits may leave it many times as wide.
import { EigenvalueDecomposition, type Matrix, solve } from "ml-matrix";
import type { Correlation } from "./airframe.js";
import { correlationMatrix, factorOf, possible } from "./together.js";

/** Pairs below `least` are left out, the others have so many digits; the plainest first. */
const FORMS = [
  { least: 0.02, digits: 2 },
  { least: 0.02, digits: 3 },
  { least: 0.005, digits: 3 },
  { least: 0.002, digits: 4 },
  { least: 0.0005, digits: 4 },
  { least: 0.0001, digits: 5 },
  { least: 0.00001, digits: 6 },
  { least: 0, digits: 12 },
] as const;
/** No combination of the numbers may become wider or narrower by more than this share. */
const WIDER = 0.05;

/**
 * The strongest first. `matrix` holds the correlations of the scores of the numbers with these keys; where numbers cannot
 * have them, those of the nearest that can.
 */
export function correlationPairs(keys: readonly string[], matrix: Matrix): Correlation[] {
  const wanted = possible(matrix);
  const factor = factorOf(wanted);
  const all = FORMS.map(({ least, digits }) => roundedPairs(keys, wanted, least, digits));
  return all.find((pairs) => changeOfWidth(factor, keys, pairs) <= WIDER) ?? all.at(-1) ?? [];
}

function roundedPairs(keys: readonly string[], matrix: Matrix, least: number, digits: number): Correlation[] {
  const pairs = keys.flatMap((other, j) =>
    keys.slice(0, j).map((one, i) => ({ one, other, correlation: Number(matrix.get(i, j).toFixed(digits)) })),
  );
  return pairs
    .filter(({ correlation }) => correlation !== 0 && Math.abs(correlation) >= least)
    .sort((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation));
}

/** Of the combination that changes most: eigenvalues of the one matrix seen from the other. */
function changeOfWidth(factor: Matrix, keys: readonly string[], pairs: readonly Correlation[]): number {
  const spreads = keys.map((key) => ({ key }));
  const half = solve(factor, correlationMatrix(spreads, pairs));
  const ratios = new EigenvalueDecomposition(solve(factor, half.transpose()), { assumeSymmetric: true });
  return Math.max(...ratios.realEigenvalues.map((ratio) => Math.abs(Math.sqrt(Math.max(ratio, 0)) - 1)));
}
