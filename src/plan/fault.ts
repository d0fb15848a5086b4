// What forbids a plan.

/** Why this airframe cannot answer this sweep; `path` is the place in the file of the one or the other. */
export interface PlanFault {
  readonly file: "sweep" | "model";
  readonly path: readonly (string | number)[];
  readonly message: string;
}
