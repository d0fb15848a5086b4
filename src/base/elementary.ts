// exp, ln, sin, cos, atan2 and pow in plain arithmetic. The standard leaves Math.exp and its like to the
// engine; these have the same bits on every one, so a disturbance sequence is the same everywhere.
export { atan2 } from "./arctangent.js";
export { cos, sin } from "./circular.js";
export { exp, ln } from "./exponential.js";
export { pow } from "./power.js";
