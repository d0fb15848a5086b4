// What ends many waits. No outside source: that a race holds what it lost to is how the language's promises are built.
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { describe, expect, it } from "vitest";
import { ending } from "../../src/run/ending.js";

const never = () => new Promise<string>(() => {});

describe("an ending", () => {
  it("lets work come to what it comes to", async () => {
    expect(await ending().before(Promise.resolve(7))).toBe(7);
  });

  it("ends the waits that are there and those to come, with the first reason", async () => {
    const lost = ending();
    const there = [lost.before(never()), lost.before(never())];
    lost.end("a worker was lost");
    lost.end("the runner was closed");
    expect(await Promise.all([...there, lost.before(never()), lost.before(Promise.resolve("done"))])).toEqual(
      Array.from({ length: 4 }, () => "a worker was lost"),
    );
  });

  it("holds nothing of what is over", async () => {
    setFlagsFromString("--expose-gc");
    const collect = runInNewContext("gc") as () => void;
    const lost = ending();
    const came = async () => {
      const results = new Float64Array(1000);
      await lost.before(Promise.resolve(results));
      return new WeakRef(results);
    };
    const results = await came();
    await new Promise((resolve) => setImmediate(resolve));
    collect();
    expect(results.deref()).toBeUndefined();
    lost.end("only now");
  });
});
