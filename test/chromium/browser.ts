// A real headless Chromium for tests of the pages, found where Debian puts it or where GAINSCAPE_CHROMIUM says.
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe } from "vitest";

const PATH = process.env.GAINSCAPE_CHROMIUM ?? "/usr/bin/chromium";
const found = existsSync(PATH);

if (!found && !process.env.CI)
  process.stderr.write(
    `\n*** NO CHROMIUM at ${PATH}: the tests of the pages in a browser are SKIPPED. Install chromium, or set GAINSCAPE_CHROMIUM.\n\n`,
  );

/** On a CI machine a missing browser fails; elsewhere its tests are left out, loudly. */
export const describeInChromium = found || process.env.CI ? describe : describe.skip;

export interface Opened {
  readonly page: Page;
  /** Everything the page should never have: errors, complaints of its policy, requests for another file. */
  readonly complaints: readonly string[];
}

/** A browser for the tests of one file. */
export function browserForTests() {
  let browser: Browser;
  const folders: string[] = [];
  const contexts: BrowserContext[] = [];
  const newContext = async (options?: BrowserContextOptions): Promise<BrowserContext> => {
    const context = await browser.newContext(options);
    contexts.push(context);
    return context;
  };
  // A page that is left open goes on working beside the next one.
  afterEach(async () => {
    for (const context of contexts.splice(0)) await context.close();
  });
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: PATH, args: ["--no-sandbox", "--disable-gpu", "--mute-audio"] });
  });
  afterAll(async () => {
    await browser?.close();
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  });
  return {
    /** Opens a text as a file whose path has spaces, quotes and signs that mean something in addresses. */
    async open(text: string, options: BrowserContextOptions = {}): Promise<Opened> {
      const folder = mkdtempSync(join(tmpdir(), `gainscape's "own" #1 50% `));
      folders.push(folder);
      const file = join(folder, `my "first" map's page.html`);
      writeFileSync(file, text);
      const context = await newContext({ viewport: { width: 1280, height: 900 }, ...options });
      const page = await context.newPage();
      const complaints: string[] = [];
      const address = pathToFileURL(file).href;
      page.on("pageerror", (error) => complaints.push(error.message));
      page.on("console", (message) => {
        if (["error", "warning"].includes(message.type())) complaints.push(message.text());
      });
      page.on("request", (request) => {
        const url = request.url();
        if (url !== address && !url.startsWith("data:")) complaints.push(`asked for ${url}`);
      });
      await page.goto(address);
      return { page, complaints };
    },
    /** A blank page of its own, for pictures to be compared on. */
    async blank(): Promise<Page> {
      return (await newContext()).newPage();
    },
  };
}
