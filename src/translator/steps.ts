// The program for one number of rotors: constant counts evaluated, their loops unrolled, names and known cells turned into slots.
import type { Place } from "./places.js";
import type { Code } from "./wasm.js";

/** Something of which every lane has its own number: a variable or a state cell at a known place. */
export interface Slot {
  readonly name: string;
  /** Place in the state, or null for a variable. */
  readonly cell: number | null;
}

/** A number all lanes share that is computed once, before the loop. */
export interface Hoisted {
  readonly name: string;
}

export type LaneCode =
  | { readonly form: "constant"; readonly value: number }
  | { readonly form: "slot"; readonly slot: Slot }
  | { readonly form: "hoisted"; readonly hoisted: Hoisted }
  | { readonly form: "shared"; readonly array: string; readonly place: Place }
  | { readonly form: "state"; readonly place: Place }
  | { readonly form: "sample"; readonly place: Place }
  | { readonly form: "negative"; readonly of: LaneCode }
  | {
      readonly form: "arithmetic";
      readonly operator: "+" | "-" | "*" | "/";
      readonly left: LaneCode;
      readonly right: LaneCode;
    }
  | { readonly form: "extreme"; readonly operator: "<" | ">"; readonly left: LaneCode; readonly right: LaneCode }
  | {
      readonly form: "choice";
      readonly operator: "<" | ">" | "===";
      readonly left: LaneCode;
      readonly right: LaneCode;
      readonly met: LaneCode;
      readonly otherwise: LaneCode;
    };

export type Step =
  | { readonly form: "set"; readonly slot: Slot; readonly value: LaneCode }
  | { readonly form: "write"; readonly array: string; readonly place: Place; readonly value: LaneCode }
  | { readonly form: "hoist"; readonly hoisted: Hoisted; readonly value: LaneCode }
  | { readonly form: "count"; readonly counter: number; readonly again: boolean; readonly value: Code }
  | {
      readonly form: "repeat";
      readonly counter: number;
      readonly from: Place;
      readonly below: Place;
      readonly body: readonly Step[];
    }
  /** Between two rounds of an unrolled loop: a good place to pause. */
  | { readonly form: "pause"; readonly name: string };
