// One check against the outside world: what somebody else published or computed, and how to get our own value of it.

/** How the expected value came to us. */
export type Status =
  | "seen in a document"
  | "quoted in public material"
  | "quoted; recomputed"
  | "recomputed"
  | "from memory; recomputed"
  | "theory against trials";

/** The kinds of agreement that a check requires. */
export type Kind =
  | "figure" // one right answer
  | "statistic" // of a random record of finite length
  | "approximation" // the source itself is one
  | "coverage" // how often what was left out lies within its spread
  | "estimate"; // ours, next to what others measured

export interface Check {
  readonly kind?: Kind; // figure where not said
  readonly quantity: string;
  readonly source: string;
  readonly status: Status;
  readonly unit: string;
  readonly expected: number;
  /** What the error is a share of, where that is not the expected value. */
  readonly scale?: number;
  /** Allowed difference: a share of the expected value, or in its unit. */
  readonly within: { readonly share: number } | { readonly unit: number };
  readonly obtain: () => number;
  /** In how many places a worst difference was looked for: none would agree with anything. */
  readonly places?: () => number;
}

export interface Group {
  readonly title: string;
  readonly checks: readonly Check[];
}

export interface Outcome {
  readonly check: Check;
  readonly obtained: number;
  readonly places: number | null;
  /** In the tolerance's own terms: a share, or in the unit. */
  readonly error: number;
  /** As a share of the scale. */
  readonly share: number;
  readonly tolerance: number;
}

export function outcomeOf(check: Check): Outcome {
  const obtained = check.obtain();
  const difference = Math.abs(obtained - check.expected);
  const share = difference / (check.scale ?? (Math.abs(check.expected) || 1));
  const found = { check, obtained, places: check.places?.() ?? null, share };
  return "share" in check.within
    ? { ...found, error: difference / Math.abs(check.expected), tolerance: check.within.share }
    : { ...found, error: difference, tolerance: check.within.unit };
}

type Rest = Omit<Check, "quantity" | "expected" | "obtain">;

/** Checks that share everything but quantity and value. */
export const alike = (
  rest: Rest,
  rows: readonly (readonly [quantity: string, expected: number, obtain: () => number])[],
): Check[] => rows.map(([quantity, expected, obtain]) => ({ ...rest, quantity, expected, obtain }));
