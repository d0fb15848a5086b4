// What is taken away from a filter to find out whether it stands in a safe tune's way: that share of the delay which the sheet
// lists under its key, and nothing else.
import { expect, test } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { MENDS } from "../../src/causes/mends.js";
import { readYaml } from "../../src/files/yaml.js";
import { sheetOf } from "../../src/sheet/sheet.js";
import type { Sweep } from "../../src/sweep/sweep.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const CORNERS = "[{throttle: 10 %, cutoff: 40 Hz}, {throttle: 80 %, cutoff: 60 Hz}]";
const airframe = parseAirframe(
  readYaml(
    "x.yaml",
    changed(
      SMALL_MODEL,
      [
        "sensing: {",
        `sensing: {low_pass: [{order: 1, cutoff: 50 Hz}], notch: [{centre: 90 Hz, width: 30 Hz}], low_pass_schedule: [{order: 2, corners: ${CORNERS}}], tracking_notch: [{harmonic: 1, width: 60 %, lowest: 80 Hz}], `,
      ],
      [
        "  idle: 6 %\n",
        `  idle: 6 %
  rate_derivative_filter: [{order: 2, cutoff: 50 Hz}]
  rate_derivative_notch: [{centre: 90 Hz, width: 30 Hz}]
  rate_derivative_filter_schedule: [{order: 1, corners: ${CORNERS}}]
  rate_derivative_tracking_notch: [{harmonic: 0.5, width: 40 %, lowest: 80 Hz}]
`,
      ],
    ),
  ),
);
const bare = parseAirframe(readYaml("x.yaml", SMALL_MODEL));
const sweep = {} as Sweep; // no mend of a filter reads it

const delaysOf = (one: typeof airframe) => Object.fromEntries(sheetOf(one).delays.map(({ key, ms }) => [key, ms]));

test.each(MENDS.filter(({ key }) => /low_pass|notch|filter/.test(key)))("$key", ({ key, factors, changed: mend }) => {
  const before = delaysOf(airframe);
  for (const factor of factors) {
    const after = delaysOf(mend({ airframe, sweep }, "roll", factor)?.airframe ?? airframe);
    for (const [place, ms] of Object.entries(before))
      expect((after[place] ?? 0) / ms, place).toBeCloseTo(place === `${key}[0]` ? factor : 1, 1);
  }
  expect(mend({ airframe: bare, sweep }, "roll", 0.5)).toBeNull();
});
