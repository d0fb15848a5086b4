// A model's sheet for a terminal.
import { printable } from "../base/problem.js";
import type { Sheet } from "../sheet/format.js";
import {
  bodyRows,
  controllerRows,
  delayRows,
  disturbanceRows,
  LEVELS,
  levelRows,
  spreadsLine,
  togetherLine,
  warningLine,
  warningsLine,
} from "../words/sheet-words.js";
import { columns } from "./columns.js";

const INDENT = "  ";

/** The sheet as lines of text, with what looks unlikely at its end. Nothing in it moves a terminal's cursor. */
export function renderSheet(sheet: Sheet): string {
  const blocks = [
    columns(bodyRows(sheet)),
    columns([["Fresh pack, sea level", ...LEVELS], ...levelRows(sheet)]),
    [`${INDENT}Delays of the loop`, ...columns(delayRows(sheet))],
    ...(sheet.controller === undefined ? [] : [[`${INDENT}Controller in hover`, ...columns(controllerRows(sheet))]]),
    [`${INDENT}Noise and wash`, ...columns(disturbanceRows(sheet))],
    [spreadsLine(sheet), togetherLine(sheet), warningsLine(sheet.warnings), ...sheet.warnings.map(warningLine)]
      .filter((line) => line !== "")
      .map((line) => `${INDENT}${printable(line)}`),
  ];
  return blocks.map((lines) => `${lines.join("\n")}\n`).join("\n");
}
