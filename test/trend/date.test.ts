// RFC 3339, section 5.8, gives the times in two offsets.
import { describe, expect, it } from "vitest";
import { dateFault, instantOf } from "../../src/trend/date.js";

describe("a date", () => {
  it("is the same instant in every offset (RFC 3339)", () => {
    expect(instantOf("1996-12-19T16:39:57-08:00")).toBe(instantOf("1996-12-20T00:39:57Z"));
    expect(instantOf("1970-01-01")).toBe(0);
    expect(instantOf("2000-03-01") - instantOf("2000-02-29")).toBe(86_400_000);
    expect(instantOf("2026-11-28T02:17+0100")).toBe(instantOf("2026-11-28T01:17:00Z"));
  });

  it.each([
    "2026-02-29",
    "2026-13-01",
    "2026-00-10",
    "26-1-1",
    "yesterday",
    "",
    "2026-11-28T25:00Z",
    "2026-11-28T02:17",
    "2026-11-28 02:17Z",
    "2026-11-28\n",
  ])("is not %j", (text) => {
    expect(dateFault(text)).toBe("expected a day as 2026-11-28, or a time as 2026-11-28T02:17:05+01:00");
    expect(() => instantOf(text)).toThrow(RangeError);
  });

  it("is a leap day in a leap year", () => {
    expect(dateFault("2024-02-29T23:59:59-11:00")).toBeNull();
  });
});
