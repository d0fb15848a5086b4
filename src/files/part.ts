// Reads a file of the package itself, not of the user's input.
import { readFileSync } from "node:fs";

/** The text of a file the package was built with. Throws where the package is incomplete. */
export const readPart = (path: URL): string => readFileSync(path, "utf8");
