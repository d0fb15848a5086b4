// The known word a misspelt one was probably meant to be.

/**
 * The known word nearest to `word`, if it is near enough to be a typing error; else null, also where two are
 * equally near: a guess between cw and ccw would be the wrong one half of the time.
 */
export function nearest(word: string, candidates: readonly string[]): string | null {
  if (word.length > 40) return null;
  // a word of one or two letters is near to anything, so there only the case may differ
  const far = word.length < 3 ? 0 : Math.max(1, Math.floor(word.length / 3));
  let best: string | null = null;
  let least = far + 1;
  for (const candidate of candidates) {
    const away = distance(word.toLowerCase(), candidate.toLowerCase());
    if (away < least) [best, least] = [candidate, away];
    else if (away === least && away <= far) best = null;
  }
  return best;
}

/** Letters to change, add, drop or swap with a neighbour (optimal string alignment). */
function distance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = (above[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let cost = Math.min(changed, (above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      row.push(cost);
    }
    before = above;
    above = row;
  }
  return above[b.length] ?? 0;
}

/** ` (did you mean "x"?)`, or a list of what is known, or nothing where that is too long. */
export function suggestion(word: string, candidates: readonly string[]): string {
  const near = nearest(word, candidates);
  if (near !== null) return ` (did you mean "${near}"?)`;
  return candidates.length > 0 && candidates.length <= 16 ? ` (expected one of: ${candidates.join(", ")})` : "";
}
