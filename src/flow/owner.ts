// Whose map or baseline a file is: another craft's is neither overwritten nor compared with.
import { join } from "node:path";
import { fileProblem, InputError, type Problem } from "../base/problem.js";
import { isFile } from "../files/folder.js";
import { readJson } from "../files/json.js";

interface Named {
  readonly name: string;
  readonly version: string;
}

/** Throws InputError where the folder holds another craft's map. */
export const checkMapOwner = (folder: string, craft: Named): void => check(join(folder, "map.json"), craft, "map");

/** Throws InputError where the file is another craft's baseline. */
export const checkBaselineOwner = (file: string, craft: Named): void => check(file, craft, "baseline");

/** What is wrong where `found` is not the craft that was expected. */
export function foreignTo(craft: Named, found: Named, file: string, kind: "map" | "baseline"): Problem | null {
  if (found.name === craft.name && found.version === craft.version) return null;
  return fileProblem(
    file,
    `holds the ${kind} of "${found.name}" "${found.version}", not of "${craft.name}" "${craft.version}"; move it away or name another folder`,
  );
}

function check(file: string, craft: Named, kind: "map" | "baseline"): void {
  const found = isFile(file) ? craftIn(file) : null;
  const problem = found === null ? null : foreignTo(craft, found, file, kind);
  if (problem !== null) throw new InputError([problem]);
}

/** The craft a file names, or null where it is broken or not a file of ours. */
function craftIn(file: string): Named | null {
  try {
    const { airframe } = (readJson(file).data ?? {}) as { readonly airframe?: Partial<Named> | null };
    const { name, version } = airframe ?? {};
    return typeof name === "string" && typeof version === "string" ? { name, version } : null;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
