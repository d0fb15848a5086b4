// Several runs at once on one cache, one of them with hardly any room in it and one clearing it all the while.
import { join } from "node:path";
import { digestOf, expectSame, gainscape, inFolder, NIGHTLY, run } from "./command.mjs";

const ROUNDS = 3;

export const step = () =>
  inFolder(async (home) => {
    const env = { XDG_CACHE_HOME: join(home, "cache") };
    await run(["sweep", NIGHTLY, "--out", join(home, "alone"), "--no-cache", "--quiet"]);
    const wanted = digestOf(join(home, "alone/map.json"));
    let cleared = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const outs = [0, 1, 2, 3].map((at) => join(home, `${round}-${at}`));
      const runs = outs.map((out, at) => {
        const room = at === 3 ? ["--cache-limit", "1"] : [];
        return gainscape(["sweep", NIGHTLY, "--out", out, "--quiet", "--workers", "1", ...room], { env }).ended;
      });
      const all = Promise.all(runs);
      let over = false;
      all.then(() => {
        over = true;
      });
      while (!over && round > 0) {
        await run(["cache", "--clear"], { env });
        cleared++;
      }
      for (const { code, text } of await all) if (code !== 0 || text !== "") throw new Error(`${code}: ${text}`);
      for (const out of outs) expectSame(digestOf(join(out, "map.json")), wanted, out);
    }
    const look = await run(["cache"], { env });
    if (look.includes("broken")) throw new Error(look);
    return `${ROUNDS} times 4 runs at once, the cache cleared ${cleared} times meanwhile, one map`;
  });
