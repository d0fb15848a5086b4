// The engineer's chapters fold away, the ladder's later steps too; a link into one opens it, and so does paper.
import { expect, it } from "vitest";
import { renderPage } from "../../src/report/index.js";
import { climbing } from "../report/ladder-fixture.js";
import { browserForTests, describeInChromium } from "./browser.js";

describeInChromium("the chapters of a report", () => {
  const { open } = browserForTests();

  it("that an engineer asks for are closed, say what is in them, and open where a link leads into them", async () => {
    const { page, complaints } = await open(await renderPage(climbing()));
    const chapters = page.locator("details.chapter");
    expect(await chapters.count()).toBeGreaterThan(4);
    for (const one of await chapters.all()) {
      expect(await one.getAttribute("open")).toBeNull();
      expect(((await one.locator("summary small").textContent()) ?? "").length).toBeGreaterThan(10);
    }
    await page.locator('nav a[href="#room"]').click();
    await page.locator("#room").scrollIntoViewIfNeeded();
    expect(await chapters.filter({ has: page.locator("#room") }).getAttribute("open")).not.toBeNull();
    expect(complaints).toEqual([]);
  });

  it("have one step of the ladder open, every step shows its gains, and all are there on paper", async () => {
    const { page } = await open(await renderPage(climbing()));
    const steps = page.locator("details.rung");
    const all = await steps.count();
    expect(all).toBeGreaterThan(3);
    expect(await page.locator("details.rung[open]").count()).toBe(1);
    expect(await page.locator("details.rung:not([open]) summary .sets").count()).toBeGreaterThanOrEqual(all - 1);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".rung-body:visible").count()).toBe(all);
  });
});
