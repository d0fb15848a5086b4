import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sha256 } from "../../src/base/digest.js";
import { ABSENCES, MEASURE_IDS } from "../../src/base/measures.js";
import { decodeTask, encodeTask, readTask } from "../../src/run/encoded-task.js";
import { OUTCOMES, type TaskResult } from "../../src/run/task.js";

const KEY = "0123456789abcdef".repeat(4);
const WIDTH = MEASURE_IDS.length;

const results = (most: number) =>
  fc.integer({ min: 0, max: most }).chain((trials) =>
    fc.record({
      values: fc.float64Array({
        noNaN: true,
        noDefaultInfinity: true,
        minLength: trials * WIDTH,
        maxLength: trials * WIDTH,
      }),
      absent: fc.uint8Array({ max: ABSENCES.length - 1, minLength: trials * WIDTH, maxLength: trials * WIDTH }),
      outcome: fc.uint8Array({ max: OUTCOMES.length - 1, minLength: trials, maxLength: trials }),
      until: fc.float64Array({ min: 0, max: 1e3, noNaN: true, minLength: trials, maxLength: trials }),
      steps: fc.nat(2 ** 40),
    }),
  );

const some: TaskResult = {
  values: Float64Array.from({ length: 3 * WIDTH }, (_, at) => Math.sqrt(at)),
  absent: Uint8Array.from({ length: 3 * WIDTH }, (_, at) => at % ABSENCES.length),
  outcome: Uint8Array.of(0, 1, 2),
  until: Float64Array.of(1.8, 1.8, 0.25),
  steps: 12_345,
};

/** Bytes with a valid seal, as anybody who knows the format could make them. */
function resealed(bytes: Uint8Array): Uint8Array {
  bytes.set(sha256(bytes.subarray(0, -32)), bytes.length - 32);
  return bytes;
}

describe("a task's results as bytes", () => {
  it("come back bit for bit, also from bytes that stand unaligned", () => {
    fc.assert(
      fc.property(results(9), fc.nat(7), (result, shift) => {
        const bytes = encodeTask(KEY, result);
        const shifted = new Uint8Array(bytes.length + shift);
        shifted.set(bytes, shift);
        expect(decodeTask(KEY, result.outcome.length, shifted.subarray(shift))).toEqual(result);
      }),
    );
  });

  it("keep a zero's sign and the smallest number", () => {
    const values = new Float64Array(WIDTH).fill(-0);
    values[1] = 5e-324;
    const result = {
      values,
      absent: new Uint8Array(WIDTH),
      outcome: new Uint8Array(1),
      until: Float64Array.of(1),
      steps: 1,
    };
    const back = decodeTask(KEY, 1, encodeTask(KEY, result)) as TaskResult;
    expect([Object.is(back.values[0], -0), back.values[1]]).toEqual([true, 5e-324]);
  });

  it("stand one behind another", () => {
    const bytes = Buffer.concat([encodeTask(KEY, some), encodeTask("f".repeat(64), some)]);
    const first = readTask(bytes);
    if (typeof first === "string") throw new Error(first);
    expect([first.key, first.result]).toEqual([KEY, some]);
    expect(readTask(bytes.subarray(first.length))).toMatchObject({ key: "f".repeat(64), result: some });
  });
});

describe("bytes that are not the task's results", () => {
  const bytes = encodeTask(KEY, some);

  it("cut short anywhere", () => {
    for (let length = 0; length < bytes.length; length++)
      expect(decodeTask(KEY, 3, bytes.subarray(0, length))).toMatch(length < 19 ? /not a file of cached/ : /cut short/);
  });

  it("with any one bit flipped", () => {
    for (let at = 0; at < bytes.length; at++) {
      const flipped = bytes.slice();
      flipped[at] ^= 1 << (at % 8);
      expect(typeof decodeTask(KEY, 3, flipped), `byte ${at}`).toBe("string");
    }
  });

  it("longer than they should be", () => {
    expect(decodeTask(KEY, 3, Buffer.concat([bytes, Uint8Array.of(0)]))).toMatch(/changed/);
  });

  it("of another task, or of another number of trials", () => {
    expect(decodeTask("0".repeat(64), 3, bytes)).toMatch(/other trials/);
    expect(decodeTask(KEY, 4, bytes)).toMatch(/other trials/);
  });

  it("that say they are larger than any machine", () => {
    const huge = bytes.slice();
    new DataView(huge.buffer).setUint32(19 + 32, 0xffffffff, true);
    expect(decodeTask(KEY, 3, resealed(huge))).toMatch(/cut short/);
  });

  it.each([
    ["NaN", Number.NaN],
    ["infinity", Number.POSITIVE_INFINITY],
  ])("with %s, sealed or not", (_, value) => {
    const spoilt = encodeTask(KEY, { ...some, values: some.values.map((old, at) => (at === 5 ? value : old)) });
    expect(decodeTask(KEY, 3, spoilt)).toMatch(/no trial gives/);
  });

  it.each([
    ["an unknown outcome", { ...some, outcome: Uint8Array.of(0, 1, OUTCOMES.length) }],
    ["an unknown reason", { ...some, absent: some.absent.map(() => ABSENCES.length) }],
    ["an end before the start", { ...some, until: Float64Array.of(1, -1, 1) }],
    ["an end that is not a number", { ...some, until: Float64Array.of(1, Number.NaN, 1) }],
    ["half a step", { ...some, steps: 0.5 }],
    ["steps that are not a number", { ...some, steps: Number.NaN }],
  ])("with %s", (_, result) => {
    expect(decodeTask(KEY, 3, encodeTask(KEY, result))).toMatch(/no trial gives/);
  });

  it("of another length of catalogue", () => {
    const narrow = bytes.slice();
    new DataView(narrow.buffer).setUint32(19 + 36, WIDTH - 1, true);
    expect(decodeTask(KEY, 3, resealed(narrow))).toMatch(/changed/);
  });
});
