// Changes that are valid only together become one.
import { describe, expect, it } from "vitest";
import { joinedTeams, membersOf } from "../../src/why/joined.js";
import type { Coalition } from "../../src/why/shapley.js";

const sorted = (teams: readonly (readonly number[])[]): number[][] =>
  teams.map((team) => [...team].sort((a, b) => a - b)).sort((one, other) => (one[0] ?? 0) - (other[0] ?? 0));

describe("players that are worth something only together", () => {
  it("stay apart where every coalition is worth something", () => {
    expect(joinedTeams(3, () => true)).toEqual([[0], [1], [2]]);
  });

  it("are joined where one will not do without the other", () => {
    const isWorth = ([, filter, , rate]: Coalition) => rate !== true || filter === true; // a slower loop needs the lower filter
    expect(sorted(joinedTeams(4, isWorth))).toEqual([[0], [1, 3], [2]]);
  });

  it("are joined by twos and threes, and the others left alone", () => {
    const isWorth = ([a, b, c, d, e]: Coalition) => a === b && b === c && d === e;
    expect(sorted(joinedTeams(6, isWorth))).toEqual([[0, 1, 2], [3, 4], [5]]);
  });

  it("are one where nothing but all of them will do", () => {
    const isWorth = (coalition: Coalition) => new Set(coalition).size === 1;
    expect(sorted(joinedTeams(4, isWorth))).toEqual([[0, 1, 2, 3]]);
  });

  it("names their members", () => {
    expect(membersOf([[0, 2], [4]], 5)).toEqual([true, false, true, false, true]);
  });
});
