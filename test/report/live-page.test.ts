import { createHash } from "node:crypto";
import { HtmlValidate } from "html-validate";
import { beforeAll, describe, expect, it } from "vitest";
import { pageScript } from "../../src/flow/page-script.js";
import { renderCard, renderPage } from "../../src/report/index.js";
import { fixture } from "./fixture.js";
import { climbing } from "./ladder-fixture.js";

const script = pageScript();
const map = climbing();
let page = "";
beforeAll(async () => {
  page = await renderPage(map, script);
});

const one = (text: string, pattern: RegExp): string => pattern.exec(text)?.[1] ?? "";
const hash = (text: string) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

describe("the page with its script", () => {
  it("allows that one script and that one style sheet by hash, and evaluates nothing", () => {
    const policy = one(page, /http-equiv="Content-Security-Policy" content="([^"]*)"/);
    const embedded = one(page, /<\/script>\s*<script>([\s\S]*?)<\/script>/);
    expect(embedded).toBe(script);
    expect(policy).toContain(`script-src ${hash(script)};`);
    expect(policy).toContain(`style-src ${hash(one(page, /<style>([\s\S]*?)<\/style>/))};`);
    expect(policy).toMatch(/^default-src 'none';/);
    expect(policy).not.toMatch(/unsafe|http|\*/);
  });

  it("may compile the kernels it brings along, and nothing else is allowed for it", async () => {
    const kernels = [Uint8Array.of(0, 97, 115, 109), null];
    const faster = await renderPage(map, script, kernels);
    const policy = (text: string) => one(text, /http-equiv="Content-Security-Policy" content="([^"]*)"/);
    expect(policy(faster)).toBe(policy(page).replace(`${hash(script)};`, `${hash(script)} 'wasm-unsafe-eval';`));
    expect(JSON.parse(one(faster, /id="map-kernels">([\s\S]*?)<\/script>/))).toEqual(["AGFzbQ==", null]);
    expect(page.includes('id="map-kernels"')).toBe(false);
  });

  it("keeps the notice of the copied functions with the script", () => {
    expect(script).toContain("Permission to use, copy, modify, and distribute this software is freely granted");
  });

  it("embeds data that no markup can begin or end in, whatever a file holds", async () => {
    const evil = `</script><script>alert(1)</script><!-- & \u2028 "`;
    const variants = map.variants.map((variant) => ({ ...variant, title: evil, script: evil }));
    const shown = await renderPage({ ...map, variants }, script);
    const data = one(shown, /id="map-data">([\s\S]*?)<\/script>/);
    expect(data).not.toMatch(/[<>&\u2028]/);
    expect(JSON.parse(data).variants[0].title).toBe(evil);
    expect([...shown.matchAll(/<script/g)]).toHaveLength(2);
  });

  it("refuses a script that would end its own element", async () => {
    await expect(renderPage(map, 'const a = "</script>";')).rejects.toThrow("would end its own element");
    await expect(renderPage(map, 'const a = "<!-- ";')).rejects.toThrow("would end its own element");
  });

  it("stays under 1.5 MB, also for grids of 96 and 256 lines a side", async () => {
    expect(Buffer.byteLength(page)).toBeLessThan(1.5e6);
    for (const lines of [96, 256]) {
      const large = await renderPage({ ...fixture(lines), ladder: map.ladder as never }, script);
      expect(Buffer.byteLength(large)).toBeLessThan(1.5e6);
    }
  });
});

describe("the markup", () => {
  const validator = new HtmlValidate({
    extends: ["html-validate:recommended"],
    // Lists and figures are named here: allowed, if not required.
    rules: { "aria-label-misuse": ["error", { allowAnyNamable: true }] },
  });
  const faults = async (text: string) => {
    const report = await validator.validateString(text);
    return report.results.flatMap(({ messages }) =>
      messages.map(({ ruleId, line, message }) => `${line} ${ruleId}: ${message}`),
    );
  };

  it("of page and card is valid, with a script and without", async () => {
    expect(await faults(page)).toEqual([]);
    expect(await faults(await renderPage(map))).toEqual([]);
    expect(await faults(await renderCard(map))).toEqual([]);
  });
});
