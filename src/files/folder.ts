// Whether a path is a file or a folder.
import { type Stats, statSync } from "node:fs";

/** Whether a folder stands at the path. */
export const isFolder = (path: string): boolean => statOf(path)?.isDirectory() ?? false;

/** Whether a file stands at the path. */
export const isFile = (path: string): boolean => statOf(path)?.isFile() ?? false;

/** What cannot be read counts as absent: opening it later gives the reason. */
function statOf(path: string): Stats | null {
  try {
    return statSync(path);
  } catch {
    return null;
  }
}
