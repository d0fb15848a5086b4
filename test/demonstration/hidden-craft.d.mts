import type { Airframe } from "../../src/airframe/airframe.js";

export declare const HIDDEN: Readonly<Record<string, string>>;
export declare const GAINS: Readonly<
  Record<"roll" | "pitch" | "yaw", { readonly p: number; readonly i: number; readonly d: number }>
>;
export declare const MODEL: string;
export function hiddenCraft(): Airframe;
