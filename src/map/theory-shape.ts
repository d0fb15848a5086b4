// The shape of theory's part of map.json, for reading it back.
import { z } from "zod";
import { expecting, int, list, number, object, text } from "../base/read-back.js";

const comparedEnd = () =>
  object({
    throttle: number(),
    condition: text(),
    d: number(),
    theory: number().nullable(),
    simulated: number().nullable(),
    difference: number().nullable(),
  });

const curvePoint = z.tuple([number(), number(), number()], expecting("D, P and a frequency"));
const range = z.tuple([number().nullable(), number().nullable()], expecting("two ends of a stable range"));

const loop = object({
  throttle: number(),
  condition: text(),
  curve: list(list(curvePoint)),
  perD: list(list(range)),
});

const agreement = object({
  script: text(),
  ends: int(),
  median: number().nullable(),
  worst: comparedEnd().nullable(),
  tolerance: number(),
  disagreements: list(comparedEnd()),
});

const sensitivity = object({
  d: number(),
  p: number(),
  throttle: number(),
  condition: text(),
  effects: list(object({ key: text(), title: text(), more: number().nullable(), less: number().nullable() })),
});

export const theoryShape = () =>
  object({
    loops: list(loop),
    agreement: agreement.nullable(),
    step: comparedEnd().nullable(),
    sensitivity: sensitivity.nullable(),
    attitude: object({ bandwidth: number(), phaseDelay: number().nullable() }).nullable().exactOptional(),
  });
