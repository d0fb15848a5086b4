// The folder a map's files go into, and whether it takes them; what draws them is not needed to know.
import { InputError } from "../base/problem.js";
import { type Needs, probeFolder } from "../files/probe.js";
import { mapFolder } from "./paths.js";

/** Names of a report's files. */
export const REPORT_NAMES: readonly string[] = ["index.html", "card.html", "points.csv", "strips.csv", "map.json"];

interface Question {
  readonly sweep: { readonly name: string };
  readonly airframe: { readonly name: string; readonly version: string };
}

/** reports/<sweep>/<airframe>-<version>, names reduced to what every file system takes. */
export const outputFolder = ({ sweep, airframe }: Question): string => mapFolder(sweep.name, airframe);

/** Throws InputError where the files could not be written into the folder; makes nothing. */
export function checkOutput(folder: string, needs?: Needs): void {
  const problem = probeFolder(folder, needs);
  if (problem !== null) throw new InputError([problem]);
}
