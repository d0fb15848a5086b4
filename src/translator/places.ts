// Index arithmetic at build time: every index is a constant plus, where counts are open, code that computes the rest.
import type { Expression, Test } from "./tree.js";
import { type Code, i32, integer, select } from "./wasm.js";

/** constant + what `rest` leaves on the stack (never negative). */
export interface Place {
  readonly constant: number;
  readonly rest: Code | null;
}

export const constantPlace = (constant: number): Place => ({ constant, rest: null });

export const codeOf = ({ constant, rest }: Place): Code => {
  if (rest === null) return integer(constant);
  return constant === 0 ? rest : [...rest, ...integer(constant), ...i32.add];
};

export function evaluatePlace(node: Expression, lookUp: (name: string) => Place): Place {
  if (node.form === "constant") return constantPlace(node.value);
  if (node.form === "name") return lookUp(node.name);
  if (node.form === "choice")
    return chosen(node.test, evaluatePlace(node.met, lookUp), evaluatePlace(node.otherwise, lookUp), lookUp);
  if (node.form !== "binary") throw new Error(`no place: ${node.form}`);
  const left = evaluatePlace(node.left, lookUp);
  const right = evaluatePlace(node.right, lookUp);
  if (node.operator === "+") return sum(left, right);
  if (node.operator === "*") return product(left, right);
  return remainder(left, right);
}

function sum(left: Place, right: Place): Place {
  const constant = left.constant + right.constant;
  if (left.rest === null || right.rest === null) return { constant, rest: left.rest ?? right.rest };
  return { constant, rest: [...left.rest, ...right.rest, ...i32.add] };
}

function product(left: Place, right: Place): Place {
  if (right.rest === null) return times(left, right.constant);
  if (left.rest === null) return times(right, left.constant);
  return { constant: 0, rest: [...codeOf(left), ...codeOf(right), ...i32.multiply] };
}

export function times({ constant, rest }: Place, factor: number): Place {
  if (rest === null || factor === 0) return constantPlace(constant * factor);
  if (factor === 1) return { constant, rest };
  const shift = Math.log2(factor);
  const scaled = Number.isInteger(shift)
    ? [...integer(shift), ...i32.shiftLeft]
    : [...integer(factor), ...i32.multiply];
  return { constant: constant * factor, rest: [...rest, ...scaled] };
}

function remainder(left: Place, right: Place): Place {
  if (left.rest === null && right.rest === null) return constantPlace(left.constant % right.constant);
  return { constant: 0, rest: [...codeOf(left), ...codeOf(right), ...i32.remainder] };
}

/** The smaller constant stays outside the choice, so that an index never loses its lower bound. */
function chosen(test: Test, met: Place, otherwise: Place, lookUp: (name: string) => Place): Place {
  const outcome = evaluateTest(test, lookUp);
  if (typeof outcome === "boolean") return outcome ? met : otherwise;
  const constant = Math.min(met.constant, otherwise.constant);
  const above = (place: Place): Code => codeOf({ constant: place.constant - constant, rest: place.rest });
  return { constant, rest: [...above(met), ...above(otherwise), ...outcome, ...select] };
}

/** The outcome where it is known at build time, else code that leaves it on the stack. */
export function evaluateTest({ operator, left, right }: Test, lookUp: (name: string) => Place): boolean | Code {
  const [a, b] = [evaluatePlace(left, lookUp), evaluatePlace(right, lookUp)];
  if (a.rest === null && b.rest === null) {
    if (operator === "===") return a.constant === b.constant;
    return operator === "<" ? a.constant < b.constant : a.constant > b.constant;
  }
  const comparison = { "<": i32.less, ">": i32.greater, "===": i32.equal }[operator];
  return [...codeOf(a), ...codeOf(b), ...comparison];
}
