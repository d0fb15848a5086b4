// A gate's run in one line, the same on the terminal, in the summary and on the front page.
import { count } from "./numbers.js";

export interface NightCounts {
  readonly pairs: number;
  readonly regressions: number;
  readonly gates: number;
  readonly skipped: number;
}

/** "3 compared, 1 with a regression; 2 of 30 gates not judged". */
export function nightWords({ pairs, regressions, gates, skipped }: NightCounts): string {
  const found = regressions === 0 ? "no regression" : `${count(regressions)} with a regression`;
  return `${count(pairs)} compared, ${found}; ${skipped === 0 ? "every gate judged" : `${count(skipped)} of ${count(gates)} gates not judged`}`;
}
