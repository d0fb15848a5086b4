// The shape of theory's part of map.json, for reading it back.
import { z } from "zod";
import { list, number, part, text, told, whole } from "../base/read-back.js";

const comparedEnd = () =>
  part({
    throttle: number(),
    condition: text(),
    d: number(),
    theory: number().nullable(),
    simulated: number().nullable(),
    difference: number().nullable(),
  });

const curvePoint = z.tuple([number(), number(), number()], told("D, P and a frequency"));
const range = z.tuple([number().nullable(), number().nullable()], told("two ends of a stable range"));

const loop = part({
  throttle: number(),
  condition: text(),
  curve: list(list(curvePoint)),
  perD: list(list(range)),
});

const agreement = part({
  script: text(),
  compared: whole(),
  median: number().nullable(),
  worst: comparedEnd().nullable(),
  tolerance: number(),
  disagreements: list(comparedEnd()),
});

const sensitivity = part({
  d: number(),
  p: number(),
  throttle: number(),
  condition: text(),
  strongest: list(part({ key: text(), title: text(), more: number().nullable(), less: number().nullable() })),
});

export const theoryShape = () =>
  part({
    loops: list(loop),
    agreement: agreement.nullable(),
    step: comparedEnd().nullable(),
    sensitivity: sensitivity.nullable(),
    attitude: part({ bandwidth: number(), phaseDelay: number().nullable() }).nullable().exactOptional(),
  });
