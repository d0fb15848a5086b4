// How a sweep file writes its grid: lines of P and of D for both axes or for each, evenly spaced or one by one, or left
// to the plan.
import { count, describeValue, field, quantity } from "../base/fields.js";
import type { Reading } from "../base/quantity.js";
import { firstFit, group, list } from "../base/shapes.js";
import { MOST_GRID_LINES } from "../base/sizes.js";
import type { AutoGrid, LineCounts } from "./sweep.js";

/**
 * What `auto` alone asks for. Lines that stand where they matter need fewer: 576 points show the safe ground of the shipped
 * craft with a finer step than 1024 even ones did, for little more than half the trials.
 */
const AUTO_LINES: LineCounts = Object.freeze({ p: 24, d: 24 });

/** Fewer show no ground, and more than this are not distinct when rounded to two digits. */
const FEWEST_AUTO_LINES = 8;
const MOST_AUTO_LINES = 64;

export const pGain = () => quantity("pGain", "0.1 %/(100 deg/s)", "1000 %/(100 deg/s)");
export const dGain = () => quantity("dGain", "0 %/(1000 deg/s^2)", "500 %/(1000 deg/s^2)");

const WORDS = "auto, or auto with lines of P x lines of D (auto 24 x 20)";
const AXIS_WORDS = `${WORDS}, or the keys p, d`;
const LINE_WORDS = "the keys from, to, points, or a list of gains";

/** auto, auto 32, auto 24 x 20: lines of P, then of D. */
const auto = () =>
  field(
    (written): Reading<AutoGrid> => {
      const fault = { fault: `expected ${AXIS_WORDS}, found ${describeValue(written)}` };
      if (typeof written !== "string") return fault;
      const [whole, p, d] = AUTO.exec(written.trim()) ?? [];
      if (whole === undefined) return fault;
      const lines = p === undefined ? AUTO_LINES : { p: Number(p), d: Number(d ?? p) };
      const outside = [lines.p, lines.d].find((one) => one < FEWEST_AUTO_LINES || one > MOST_AUTO_LINES);
      if (outside === undefined) return { value: { auto: lines } };
      return { fault: `${outside} lines are out of range, expected ${FEWEST_AUTO_LINES} to ${MOST_AUTO_LINES}` };
    },
    {
      type: "string",
      pattern: "^\\s*auto(\\s+\\d+(\\s*[x\u00d7]\\s*\\d+)?)?\\s*$",
      description: `${WORDS}, ${FEWEST_AUTO_LINES} to ${MOST_AUTO_LINES} of each`,
    },
  );

const AUTO = /^auto(?:\s{1,9}(\d{1,4})(?:\s{0,9}[x\u00d7]\s{0,9}(\d{1,4}))?)?$/;

/** Evenly spaced, or one by one. */
const line = (gain: typeof pGain) =>
  firstFit(
    LINE_WORDS,
    [Array.isArray, list(gain(), 2, MOST_GRID_LINES, "gains")],
    [isGroup, group({ from: gain(), to: gain(), points: count(2, MOST_GRID_LINES) })],
  );

const lines = () => group({ p: line(pGain), d: line(dGain) });

const axisGrid = () => firstFit(AXIS_WORDS, [isText, auto()], [isGroup, lines()]);

export const gridSchema = () =>
  firstFit(
    `${AXIS_WORDS} or roll, pitch`,
    [isText, auto()],
    [namesAxis, group({ roll: axisGrid(), pitch: axisGrid() })],
    [isGroup, lines()],
  );

const isText = (written: unknown): boolean => typeof written === "string";
const isGroup = (written: unknown): written is object =>
  typeof written === "object" && written !== null && !Array.isArray(written);
const namesAxis = (written: unknown): boolean => isGroup(written) && ("roll" in written || "pitch" in written);
