// Where the translated function finds its numbers. Its parameters: a pointer for each array (the craft holds every number twice in
// a row, other shared memories once; lane memories other than the trace hold their pairs of lanes cell by cell), the distance between
// the lanes' traces in bytes, and the counts not known at build time. The first page of memory is its own: it holds what is live
// between segments.
import { DOUBLE, PAGE, VECTOR } from "../base/vector-layout.js";
import { type Place, times } from "./places.js";
import type { Hoisted, Slot } from "./steps.js";
import type { Program } from "./tree.js";
import { type Code, get, i32, integer, v128 } from "./wasm.js";

export interface Address {
  readonly base: Code;
  readonly offset: number;
}

/** The lane memory in which every lane has a stretch of its own, sample by sample. */
export const TRACE = "trace";

const OWN = integer(0);

export const loadAt = ({ base, offset }: Address): Code => [...base, ...v128.load(offset)];

/** The shared memory that is read anew in every round: in it each number stands twice, as vectors take it from memory at once. */
const TWICE = "craft";

export class Layout {
  readonly parameters: number;
  /** The first of the counts among the parameters. */
  readonly firstCount: number;
  /** The lane memory that is stored cell by cell. */
  private readonly cells: string;
  private readonly homes = new Map<Slot | Hoisted, number>();
  private next = 0;

  constructor(
    private readonly program: Program,
    counts: Readonly<Record<string, number>>,
    private readonly pairs: number,
  ) {
    this.cells = program.arrays.find(({ name, kind }) => kind === "Varying" && name !== TRACE)?.name ?? "";
    this.firstCount = program.arrays.length + 1;
    this.parameters = this.firstCount + program.counts.filter((count) => counts[count] === undefined).length;
  }

  /** Code that leaves the distance between two lanes' traces. */
  get stride(): Code {
    return get(this.firstCount - 1);
  }

  pointer(array: string): Code {
    return get(this.program.arrays.findIndex(({ name }) => name === array));
  }

  /** Code that leaves a number of a shared memory in every lane. */
  shared(array: string, place: Place): Code {
    const at = (size: number) => along(this.pointer(array), times(place, size));
    if (array === TWICE) return loadAt(at(VECTOR));
    const { base, offset } = at(DOUBLE);
    return [...base, ...v128.loadBoth(offset)];
  }

  cell(place: Place, pair: number): Address {
    return along(this.pointer(this.cells), times(place, VECTOR * this.pairs), pair * VECTOR);
  }

  slot(slot: Slot, pair: number): Address {
    if (slot.cell !== null) return this.cell({ constant: slot.cell, rest: null }, pair);
    return { base: OWN, offset: this.home(slot, this.pairs) + pair * VECTOR };
  }

  hoisted(hoisted: Hoisted): Address {
    return { base: OWN, offset: this.home(hoisted, 1) };
  }

  private home(of: Slot | Hoisted, width: number): number {
    const at = this.homes.get(of) ?? this.next;
    if (at === this.next) this.next += width * VECTOR;
    if (this.next > PAGE) throw new Error("more is live between segments than the first page of memory holds");
    this.homes.set(of, at);
    return at;
  }
}

/** A sample's address within the trace at `pointer`. */
export const sample = (pointer: Code, place: Place): Address => along(pointer, times(place, DOUBLE));

function along(pointer: Code, { constant, rest }: Place, further = 0): Address {
  return { base: rest === null ? pointer : [...pointer, ...rest, ...i32.add], offset: constant + further };
}
