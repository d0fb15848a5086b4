// Handles of open files: how many there may be, and those of a terminal that is gone.
import { closeSync, openSync } from "node:fs";
import { isatty } from "node:tty";

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

const STANDARD = [0, 1, 2];

/**
 * Returns a function to be called last, which closes the standard streams that are terminals: Node would set each back as it
 * leaves, and abort where one goes away meanwhile. Nothing here changes a terminal's mode, so nothing is to be set back.
 */
export function terminalsToLeave(): () => void {
  const terminals = STANDARD.filter((handle) => isatty(handle));
  return () => {
    for (const handle of terminals) {
      try {
        closeSync(handle);
      } catch {} // closed already
    }
  };
}
