import { describe, expect, it } from "vitest";
import type { WorstInterval } from "../../src/map/boundary.js";
import { constraintTitle, type FieldInput, fieldOf, tightest } from "../../src/map/field.js";
import { decider, defaultLimits, noLimits, worstOf } from "./tables.js";

const stable = (from: number, to: number): WorstInterval => ({
  from,
  to,
  fromOpen: false,
  toOpen: false,
  fromBy: 3,
  toBy: 4,
});
const margins = (gainUp: number, gainDown: number | null, phase: number) => ({
  gainUp,
  gainDown,
  phase,
  gainBy: 5,
  phaseBy: 6,
});

const input: FieldInput = {
  p: [10, 20, 40],
  d: [0, 1],
  worst: [5, 10, 15, 20, 25, 30].map((overshoot) => worstOf({ overshoot })),
  margins: [12, 9, 6, 3, 0, -3].map((gain) => margins(gain, null, Math.PI / 4)),
  sustained: [stable(5, 30), { never: 8 }],
  limits: { ...noLimits, overshoot: 20 },
  required: { gain: 6, phase: Math.PI / 4 },
};

const constraint = (name: string, from = input) => fieldOf(from).constraints.find((one) => one.name === name);

describe("constraints of the field", () => {
  it("are the sustained boundary, both margins and every judged measure that has a limit", () => {
    expect(fieldOf(input).constraints.map(({ name }) => name)).toEqual([
      "sustained",
      "gain margin",
      "phase margin",
      "overshoot",
    ]);
    expect(fieldOf({ ...input, limits: defaultLimits }).constraints.length).toBe(3 + 8);
  });

  it("room to the boundary is the logarithm of the factor to its nearer end, with the variant that sets it", () => {
    const { room, by } = constraint("sustained") as { room: Float64Array; by: Int32Array };
    expect(room[0]).toBeCloseTo(Math.LN2, 12); // 10 from 5
    expect(room[1]).toBeCloseTo(Math.log(1.5), 12); // 20 to 30
    expect(room[2]).toBeCloseTo(Math.log(30 / 40), 12); // 40 is beyond 30
    expect([...by]).toEqual([3, 4, 4, 8, 8, 8]);
    expect([...room.slice(3)]).toEqual([-1, -1, -1]);
  });

  it("an open end is no limit", () => {
    const open = {
      ...input,
      sustained: [{ ...stable(0, Number.POSITIVE_INFINITY), fromOpen: true, toOpen: true }, stable(5, 30)],
    };
    expect([...(constraint("sustained", open) as { room: Float64Array }).room.slice(0, 3)]).toEqual([1, 1, 1]);
  });

  it("room to a margin is a share of what is wanted; the lesser of gain up and down counts", () => {
    expect([...(constraint("gain margin")?.room ?? [])]).toEqual([1, 0.5, 0, -0.5, -1, -1.5]);
    expect([...(constraint("phase margin")?.room ?? [])]).toEqual([0, 0, 0, 0, 0, 0]);
    const down = { ...input, margins: input.margins.map(() => margins(12, 3, Math.PI / 2)) };
    expect([...(constraint("gain margin", down)?.room ?? [])]).toEqual(new Array(6).fill(-0.5));
    expect(constraint("phase margin", down)?.room[0]).toBeCloseTo(1, 12);
  });

  it("room to a measure's limit is its slack, with the variant that gave the worst case", () => {
    expect([...(constraint("overshoot")?.room ?? [])]).toEqual([0.75, 0.5, 0.25, 0, -0.25, -0.5]);
    expect([...(constraint("overshoot")?.by ?? [])]).toEqual(new Array(6).fill(decider("overshoot")));
  });

  it("a measure that nothing shows limits nothing", () => {
    const blind = { ...input, worst: input.worst.map(() => worstOf({})) };
    expect([...(constraint("overshoot", blind)?.room ?? [])]).toEqual(new Array(6).fill(1));
  });
});

describe("the tightest constraint", () => {
  const field = fieldOf({
    ...input,
    sustained: [stable(1, 400), stable(1, 400)],
    margins: input.margins.map(() => margins(Infinity, null, Math.PI)),
  });

  it("is read at grid points and between them by straight lines", () => {
    expect(tightest(field, 0, 0)).toMatchObject({ room: 0.75, constraint: { name: "overshoot" } });
    expect(tightest(field, 2, 1).room).toBeCloseTo(-0.5, 12);
    expect(tightest(field, 0.5, 0).room).toBeCloseTo(0.625, 12);
    expect(tightest(field, 1, 0.5).room).toBeCloseTo(0.125, 12);
    expect(tightest(field, 1.5, 0.5).room).toBeCloseTo(0, 12);
  });

  it("an infinite margin counts as a wide one, beyond it nothing gains", () => {
    expect(
      tightest(
        fieldOf({
          ...input,
          sustained: [stable(1, 400), stable(1, 400)],
          limits: noLimits,
          margins: input.margins.map(() => margins(Infinity, null, 1e9)),
        }),
        1,
        0,
      ).room,
    ).toBe(1);
  });

  it("has a readable title", () => {
    expect(constraintTitle("sustained")).toBe("sustained oscillation");
    expect(constraintTitle("phase margin")).toBe("phase margin");
    expect(constraintTitle("wobbleAngle")).toBe("Wobble angle");
  });
});
