// Small questions about what is there.
import { type Stats, statSync } from "node:fs";

/** Whether a folder stands at the path. */
export const isFolder = (path: string): boolean => statOf(path)?.isDirectory() ?? false;

/** Whether a file stands at the path. */
export const isFile = (path: string): boolean => statOf(path)?.isFile() ?? false;

/** What may not be looked at counts as absent: whoever then opens it says why. */
function statOf(path: string): Stats | null {
  try {
    return statSync(path);
  } catch {
    return null;
  }
}
