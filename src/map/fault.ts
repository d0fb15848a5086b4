// What a map that is read back contradicts itself in.
import type { Path } from "../base/problem.js";

export type Fault = readonly [path: Path, message: string];
