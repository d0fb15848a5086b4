// How many files may be open at once.
import { closeSync, openSync } from "node:fs";

/** Whether the system lets so many handles be open together; the file at the URL, which must be there, is opened so often. */
export function canOpen(count: number, file: string): boolean {
  const open: number[] = [];
  try {
    while (open.length < count) open.push(openSync(new URL(file), "r"));
    return true;
  } catch {
    return false;
  } finally {
    open.forEach((handle) => {
      closeSync(handle);
    });
  }
}
