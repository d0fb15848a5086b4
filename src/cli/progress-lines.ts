// Progress of a run for programs.
import { sweepLine } from "../flow/sweep-lines.js";
import { noProgressView, type ProgressView, perTenth } from "./progress.js";

/** A line of JSON per 10 %; notes are no part of it. */
export const progressLines = (output: NodeJS.WriteStream, errors: NodeJS.WriteStream): ProgressView => ({
  ...noProgressView(errors),
  show: perTenth((progress) => output.write(sweepLine({ record: "progress", ...progress }))),
});
