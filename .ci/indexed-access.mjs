// Types once more with noUncheckedIndexedAccess, outside the rooms that compute on arrays: there an index is in range by
// construction, and a check on every element would hide the formulas. The compiler has this option for a whole project
// only.
import ts from "typescript";

/** Rooms of src/ that compute on arrays of numbers. */
const NUMERIC = ["kernel/", "theory/", "response/"];

const { config } = ts.readConfigFile("tsconfig.json", ts.sys.readFile);
const { fileNames, options } = ts.parseJsonConfigFileContent(config, ts.sys, ".");
const program = ts.createProgram(fileNames, { ...options, noEmit: true, noUncheckedIndexedAccess: true });
const faults = ts
  .getPreEmitDiagnostics(program)
  .filter(({ file }) => !NUMERIC.some((place) => file?.fileName.includes(`/src/${place}`)));
if (faults.length > 0) {
  const host = {
    getCanonicalFileName: (name) => name,
    getCurrentDirectory: () => process.cwd(),
    getNewLine: () => "\n",
  };
  process.stderr.write(ts.formatDiagnostics(faults, host));
  process.exit(1);
}
