// A part of the package itself, not of anybody's input.
import { readFileSync } from "node:fs";

/** The text of a file the package was built with. Throws where the package is incomplete. */
export const readPart = (path: URL): string => readFileSync(path, "utf8");
