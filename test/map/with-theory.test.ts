// Theory limits the boundary too: the lower of the two counts where they differ by more than 5 %.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { P_UNIT } from "../../src/base/units.js";
import type { WorstInterval } from "../../src/map/boundary.js";
import { byTheory, limitingCaseBy, NOBODY, variantOf } from "../../src/map/decider.js";
import { toDisplayP } from "../../src/map/display-units.js";
import { type TheoryRanges, theoryDecider, withTheory } from "../../src/map/with-theory.js";

const TOP = 64;
const BOTTOM = 2;
type Ends = readonly [from: number | null, to: number | null];

const tried = ([from, to]: Ends): WorstInterval => ({
  from: (from ?? BOTTOM) * P_UNIT,
  to: (to ?? TOP) * P_UNIT,
  fromOpen: from === null,
  toOpen: to === null,
  fromBy: from === null ? NOBODY : 0,
  toBy: to === null ? NOBODY : 1,
});
const party = (variant: number, ranges: readonly Ends[], moved = true): TheoryRanges => ({
  variant,
  perD: [ranges],
  tried: moved,
});
const heard = (trials: readonly Ends[], ...parties: TheoryRanges[]) => withTheory(trials.map(tried), parties, 0, 7);

/** In display units, with what ends it. */
const shown = (found: ReturnType<typeof heard>) =>
  "never" in found
    ? found
    : {
        from: toDisplayP(found.from),
        to: toDisplayP(found.to),
        by: [found.fromBy, found.toBy],
        others: found.others?.length,
      };

describe("trials and theory", () => {
  it("trials count where they agree within 5 %, and where they are the lower", () => {
    for (const to of [144, 140, 100, 151])
      expect(shown(heard([[null, to]], party(3, [[null, 144]])))).toMatchObject({ to, by: [NOBODY, 1] });
  });

  it("theory counts where trials lie further beyond it", () => {
    // A large craft: the trials' boundary at P 177 where theory has 144.
    const found = heard([[null, 177]], party(3, [[null, 144]]));
    expect(shown(found)).toMatchObject({ to: 144, by: [NOBODY, byTheory(3)] });
    expect(shown(heard([[2.5, 177]], party(3, [[4, null]])))).toMatchObject({ from: 4, by: [byTheory(3), 1] });
    expect(shown(heard([[null, null]], party(3, [[null, 50]])))).toMatchObject({ to: 50, by: [NOBODY, byTheory(3)] });
  });

  it("the worst of all loops counts, and it is named", () => {
    const found = heard([[null, null]], party(3, [[null, 50]]), party(4, [[null, 27]]), party(5, [[null, 44]]));
    expect(shown(found)).toMatchObject({ to: 27, by: [NOBODY, byTheory(4)] });
  });

  it("where no trial moved the axis, theory's own end counts to the digit", () => {
    expect(shown(heard([[null, 51]], party(3, [[null, 50]])))).toMatchObject({ to: 51 });
    expect(shown(heard([[null, 51]], party(3, [[null, 50]], false)))).toMatchObject({
      to: 50,
      by: [NOBODY, byTheory(3)],
    });
  });

  it("where theory finds nothing stable, nothing is, and theory says so; where trials find nothing, they do", () => {
    expect(heard([[null, 40]], party(3, []))).toEqual({ never: byTheory(3) });
    expect(heard([], party(3, [[null, 40]]))).toEqual({ never: 7 });
  });

  it("theory objects to the points between, by the loop that gives out first", () => {
    const parties = [party(3, [[null, 50]]), party(4, [[null, 27]])];
    const found = heard([[null, null]], ...parties);
    const at = (p: number) => theoryDecider(found, parties, 0, p * P_UNIT);
    expect([20, 26.9, 27.1, 40, 60].map(at)).toEqual([NOBODY, NOBODY, byTheory(4), byTheory(4), byTheory(4)]);
  });

  it("theory never adds ground, never takes any where it agrees, and leaves no point without a judge", () => {
    const ends = fc.uniqueArray(fc.integer({ min: 3, max: 63 }), { minLength: 0, maxLength: 6 }).map((values) => {
      const sorted = [...values].sort((a, b) => a - b);
      return Array.from(
        { length: sorted.length >> 1 },
        (_, k): Ends => [sorted[2 * k] as number, sorted[2 * k + 1] as number],
      );
    });
    const inside = (ranges: readonly Ends[], p: number, beyond = 1) =>
      ranges.some(([from, to]) => p >= (from as number) / beyond && p <= (to as number) * beyond);
    fc.assert(
      fc.property(ends, ends, fc.boolean(), (trials, theory, moved) => {
        const parties = [party(3, theory, moved)];
        const found = heard(trials, ...parties);
        const ranges = "never" in found ? [] : [found, ...(found.others ?? [])];
        for (let p = BOTTOM + 0.05; p < TOP; p += 0.5) {
          const stable = ranges.some(({ from, to }) => p * P_UNIT >= from && p * P_UNIT <= to);
          if (stable) expect(inside(trials, p) && inside(theory, p, moved ? 1.05 : 1)).toBe(true);
          if (inside(trials, p) && inside(theory, p)) expect(stable).toBe(true);
          if (inside(trials, p))
            expect(theoryDecider(found, parties, 0, p * P_UNIT)).toBe(stable ? NOBODY : byTheory(3));
        }
      }),
    );
  });
});

describe("who decided, as one number", () => {
  it("is a variant, nothing, or theory at a variant's level", () => {
    const endedBy = [
      { script: "nudge", throttle: 34, rate: 0, condition: "fresh" },
      { script: "stop", throttle: 70, rate: 500, condition: "tired" },
    ];
    const of = (code: number) => limitingCaseBy(code, (index) => endedBy[index]);
    expect(of(1)).toEqual(endedBy[1]);
    expect(of(NOBODY)).toBe(null);
    expect(of(byTheory(1))).toEqual({ script: "theory", throttle: 70, rate: 0, condition: "tired" });
    expect(of(byTheory(2))).toBe(null);
    for (const variant of [0, 1, 99]) expect(variantOf(byTheory(variant))).toBe(variant);
  });
});
