// The translator on small programs: what it makes does what the TypeScript does, to the bit and at every corner.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { asWritten, type Case, LANES, translated } from "./both-ways.js";

const CORNERS = [0, -0, 1, -1, 0.1, 1e300, -1e300, 5e-324, Infinity, -Infinity, NaN];

const value = fc.oneof(fc.constantFrom(...CORNERS), fc.double());
const states = (cells: number) =>
  fc.array(fc.array(value, { minLength: cells, maxLength: cells }), { minLength: LANES, maxLength: LANES });

/** -0 differs from 0 and every NaN is alike, as toEqual has it; one vector and two at once, in one segment and in many. */
function same(program: Case): void {
  const wanted = asWritten(program);
  for (const vectors of [1, 2])
    for (const longEnough of [1, 45]) expect(translated(program, vectors, longEnough)).toEqual(wanted);
}

const always = (body: string, cells: number, rest: Partial<Case> = {}) =>
  fc.assert(
    fc.property(states(cells), (rows) =>
      same({ body, constants: { from: 0 }, craft: [2, 0.5, -3], states: rows, samples: 3, ...rest }),
    ),
    { seed: 1, numRuns: 40 },
  );

describe("one line", () => {
  test.each([
    [
      "sums and products keep their order",
      "trace[0] = state[0] + state[1] * craft[1] - (state[2] - state[3]) / state[1];",
    ],
    [
      "the smaller and the larger, both ways about",
      "trace[0] = minimum(state[0], state[1]); trace[1] = maximum(state[0], state[1]);",
    ],
    [
      "with a constant on either side",
      "trace[0] = maximum(0, state[0]); trace[1] = minimum(state[0], 0); trace[2] = minimum(1, state[1]);",
    ],
    [
      "a choice between two values",
      "trace[0] = state[0] < state[1] ? state[2] : state[3]; trace[1] = state[0] > state[1] ? state[2] : state[3];",
    ],
    [
      "a choice of nothing",
      "trace[0] = state[0] < state[1] ? 0 : state[2]; trace[1] = state[0] === state[1] ? state[2] : 0;",
    ],
    ["a choice of minus nothing", "trace[0] = state[0] < state[1] ? -0 : state[2];"],
    ["minus", "trace[0] = -state[0]; trace[1] = -(state[0] - state[1]);"],
    ["a function of its own", "trace[0] = between(-1, state[0], state[1] + 1);"],
    ["a function within a function", "trace[0] = minimum(state[0], maximum(state[1], minimum(state[2], state[3])));"],
  ])("%s", (_, body) => always(body, 4));
});

test("a variable and a cell set more than once hold what they were set to last", () => {
  always(
    `let a: Varying = state[0];
     a += state[1]; state[0] = a; a = a * craft[0]; state[0] -= a; trace[0] = a; trace[1] = state[0]; state[1] *= state[0];`,
    2,
  );
});

describe("loops", () => {
  const running = `
    let sum: Varying = state[0];
    for (let k: Index = from; k < to; k++) {
      sum = sum * craft[0] + state[1 + k];
      state[0] = sum - craft[1];
      trace[k] = state[0];
    }
    state[0] = state[0] + sum;`;

  test.each([0, 1, 2, 3])("known to run %i times", (to) => always(running, 4, { constants: { from: 0, to } }));

  // What the loop changes must be right behind it even where it never ran.
  test.each([0, 1, 2, 3])("that turn out to run %i times", (to) =>
    always(running.replaceAll("state[1 + k]", "state[4 + k]"), 7, { constants: { from: 0 }, open: { to } }),
  );

  test.each([0, 1, 2, 3, 4])(
    "with a part for the rounds from %i on, and another for that one, counts that turn out",
    (from) => {
      const body = `
      let a: Varying = state[0];
      for (let k: Index = 0; k < to; k++) {
        if (from < k + 1) {
          for (let i: Index = 0; i < 3; i++) {
            const x: Varying = state[2 + i] - a;
            state[2 + i] = x;
            a += craft[k === from ? i : 0] * x;
          }
        }
        a = a + craft[0] * state[1];
        if (k === from) {
          state[1] = a * craft[2];
          a = maximum(-1e3, a);
        }
        trace[k] = a;
      }
      state[0] = a;`;
      always(body, 5, { constants: {}, open: { to: 3, from } });
    },
  );

  test.each([
    [0, 2],
    [2, 0],
    [3, 3],
  ])("of %i rounds, each with a short loop of %i", (to, stages) => {
    const body = `
      let a: Varying = state[0];
      for (let k: Index = 0; k < to; k++) {
        let y: Varying = a + state[1];
        for (let s: Index = 0; s < stages; s++) {
          const z: Index = 3 + s * 2;
          const x: Varying = y;
          y = craft[s] * x + state[z];
          state[z] = craft[2] * x - y + state[z + 1];
          state[z + 1] = x - craft[s] * y;
          state[2] += y;
        }
        a = minimum(1e3, maximum(-1e3, y + state[2]));
        trace[k] = a;
      }
      state[0] = a;`;
    always(body, 9, { constants: {}, open: { to, stages } });
  });

  test.each([1, 2, 3])("that go round a ring of %i", (slots) => {
    const body = `
      const end: Index = 1 + slots;
      let write: Index = 1 + (from % slots);
      for (let k: Index = from; k < to; k++) {
        const read: Index = write + 1 < end ? write + 1 : 1;
        state[write] = state[0] * craft[1];
        state[0] = state[read] + craft[0];
        trace[k] = state[0];
        write = read;
      }`;
    always(body, 4, { constants: {}, open: { from: 0, to: 3, slots } });
    always(body, 4, { constants: { from: 1 }, open: { to: 3, slots } });
  });

  test("left on an index, and parts for some rounds only", () => {
    const body = `
      for (let a: Index = 0; a < 3; a++) {
        state[a] = (a === 0 ? state[2] : a === 1 ? state[1] : state[0]) + a * craft[a];
        if (a === 1) break;
        if (way > 0) { const b: Varying = state[a]; state[a + 1] = b * craft[0]; }
        trace[a] = state[a];
      }`.replace("a * craft[a]", "craft[a]");
    always(body, 3, { constants: { way: 0 } });
    always(body, 3, { constants: { way: 1 } });
  });
});

test("samples are read where they were written, each lane its own", () => {
  const body = `
    for (let k: Index = 0; k < to; k++) trace[k] = state[k] * craft[0];
    let before: Varying = trace[0];
    for (let k: Index = 1; k < to; k++) {
      const now: Varying = trace[k];
      state[4] += now - before;
      before = now;
      trace[k] = before + trace[0];
    }
    state[5] = trace[to + 0] + before;`;
  always(body, 6, { constants: { to: 2 } });
  always(body.replaceAll("state[k]", "state[6 + k]"), 9, { constants: {}, open: { to: 2 } });
});

test("a known place that an open index could also reach is refused", () => {
  const body = "state[2] = state[0]; for (let k: Index = 0; k < to; k++) state[1 + k] = state[2];";
  const program = { body, open: { to: 2 }, craft: [], states: [[0, 0, 0]], samples: 1 };
  expect(() => translated(program)).toThrow("state cell 2 may also be reached by an index not known at build time");
});

test("lanes cannot be chosen by an index not known at build time", () => {
  const program = {
    body: "trace[0] = way === 0 ? state[0] : state[1];",
    open: { way: 0 },
    craft: [],
    states: [[0, 0]],
    samples: 1,
  };
  expect(() => translated(program)).toThrow("lanes can only be chosen by an index known at build time");
});
