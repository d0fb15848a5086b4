// What other machines took, beside this one: figures of one machine say little of another.
import { readdirSync, readFileSync } from "node:fs";

const words = (value) => (typeof value === "number" ? Number(value.toPrecision(4)).toString() : null);

/** Lines of a table: each figure of one number as it is here, and as each stored file of another machine has it. */
export function besideOtherMachines(folder, results) {
  const others = readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")))
    .filter(({ machine }) => machine !== results.machine);
  return others.flatMap((other) => [
    `\nthis machine beside ${other.machine}, Node ${other.node}`,
    ...Object.keys(results).flatMap((figure) => {
      const [here, there] = [words(results[figure]), words(other[figure])];
      return here === null ? [] : [`  ${figure.padEnd(32)}${here.padStart(10)}${(there ?? "-").padStart(12)}`];
    }),
  ]);
}
