// Every value from outside, checked; and the documents that print them, compared.
import { describe, expect, it } from "vitest";
import { TOLERANCES } from "../octave/tolerances.js";
import { type Outcome, outcomeOf } from "./check.js";
import { print, printed } from "./documents.js";
import { GROUPS } from "./groups.js";
import { fullTable, type GroupOutcomes, octaveTable, summaryTable, unseen } from "./table.js";

const found: Outcome[][] = GROUPS.map(() => []);
const groups: GroupOutcomes[] = GROUPS.map(({ title }, k) => ({ group: title, outcomes: found[k] }));

describe.each(GROUPS.map((group, k) => [group.title, group, k] as const))("%s", (_, { checks }, k) => {
  it.each(checks.map((check) => [check.quantity, check] as const))("%s", (__, check) => {
    const outcome = outcomeOf(check);
    found[k].push(outcome);
    expect(outcome.error, `${outcome.obtained} where ${check.expected} is expected`).toBeLessThanOrEqual(
      outcome.tolerance,
    );
    if (outcome.places !== null) expect(outcome.places, "places compared").toBeGreaterThan(0);
  });
});

describe("the documents", () => {
  const tables = [
    ["README.md", summaryTable],
    ["test/trust/checks.md", fullTable],
  ] as const;

  it.each(tables)("%s prints what was found", (file, table) => {
    if (process.env.GAINSCAPE_WRITE_TRUST !== undefined) print(file, table(groups));
    expect(printed(file), "run node test/trust/write.mjs").toBe(table(groups));
  });
});

describe("what Octave computes", () => {
  it("is printed with its tolerances", () => {
    const table = printed("test/trust/checks.md", "octave");
    expect(unseen(table), "run node test/trust/write.mjs where Octave is installed").toBe(
      unseen(octaveTable(TOLERANCES)),
    );
    expect(table).not.toBe(unseen(table));
  });
});

describe("the list of checks", () => {
  const checks = GROUPS.flatMap((group) => group.checks);

  it("says of each where it comes from, and asks each once", () => {
    for (const { quantity, source } of checks) expect(source.length, quantity).toBeGreaterThan(8);
    const questions = checks.map(({ quantity, source }) => `${quantity}: ${source}`);
    expect(new Set(questions).size).toBe(questions.length);
  });

  it("never cites from memory without saying so in the status, which is what is counted", () => {
    const silent = checks.filter(({ source, status }) => /memory/i.test(source) && !status.includes("memory"));
    expect(silent.map(({ quantity }) => quantity)).toEqual([]);
  });

  it("fails a value that is off by more than it may", () => {
    const off = { ...checks[0], expected: 1, within: { share: 1e-3 }, obtain: () => 1.002 };
    expect(outcomeOf(off).error).toBeGreaterThan(outcomeOf(off).tolerance);
  });
});
