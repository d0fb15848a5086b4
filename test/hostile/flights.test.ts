// Hostile flight files and logs, through the command line.
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { csvOf, flightRows, LOG_FLIGHT } from "../fixtures/flight-log.js";
import { SMALL_FLIGHT } from "../fixtures/small-flight.js";
import { SMALL_MODEL } from "../fixtures/small-model.js";
import { cut, cuts, edited, edits, place, triedSlowly } from "./cases.js";
import { commandLine } from "./outcome.js";

const FILES = ["flight.yaml", "log.csv", "model.yaml"];
const ROWS = flightRows(2);
const LOG = csvOf(ROWS);

let home = "";
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), "gainscape-hostile-"));
  writeFileSync(join(home, "model.yaml"), SMALL_MODEL);
});
afterAll(() => {
  expect(readdirSync(home).sort()).toEqual(FILES); // nothing was written
  rmSync(home, { recursive: true, force: true });
});

const checked = (flight: string | Uint8Array, log: string | Uint8Array): Promise<number> => {
  writeFileSync(join(home, "flight.yaml"), flight);
  writeFileSync(join(home, "log.csv"), log);
  return commandLine("check", join(home, "flight.yaml"));
};

it("as they are, they are used", async () => {
  expect(await checked(LOG_FLIGHT, LOG)).toBe(0);
});

describe.each([
  ["with a log", LOG_FLIGHT],
  ["with every key", SMALL_FLIGHT],
])("a flight %s", (_, text) => {
  const tree = parse(text);

  it("whose values are hostile is used or refused", () =>
    triedSlowly(0.06, edits, async (list) => void (await checked(JSON.stringify(edited(tree, list)) ?? "", LOG))));

  it("whose text is hostile is used or refused", () =>
    triedSlowly(0.06, cuts, async (list) => void (await checked(cut(text, list), LOG))));
});

describe("a log", () => {
  const cells = fc.oneof(
    fc.constantFrom(
      "",
      "nan",
      "inf",
      "-inf",
      "1e308",
      "-1e308",
      "5e-324",
      "0x10",
      "1,5",
      "\u001b[2J",
      "=1+1",
      "\u202e",
      '"',
    ),
    fc.double().map(String),
  );
  const wrong = fc.array(fc.record({ row: place, column: place, cell: cells }), { minLength: 1, maxLength: 40 });

  it("with hostile cells is used or refused", () =>
    triedSlowly(0.06, wrong, async (list) => {
      const rows = ROWS.map((row) => [...row]);
      for (const { row, column, cell } of list) {
        const fields = rows[Math.floor(row * rows.length)] ?? [];
        fields[Math.floor(column * fields.length)] = cell;
      }
      await checked(LOG_FLIGHT, csvOf(rows));
    }));

  it("with a hostile text is used or refused", () =>
    triedSlowly(0.06, cuts, async (list) => void (await checked(LOG_FLIGHT, cut(LOG, list)))));

  it("of any bytes is refused", () =>
    triedSlowly(0.04, fc.uint8Array({ maxLength: 400 }), async (bytes) => {
      expect(await checked(LOG_FLIGHT, bytes)).toBe(2);
    }));
});
