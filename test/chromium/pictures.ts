// Golden pictures people can live with: small, compared after averaging over small squares, so that fonts and edges of
// another machine pass and a moved or missing part does not. `GAINSCAPE_PICTURES=update npm test -- test/chromium`
// takes new ones; a picture that differs is saved beside the old one as <name>.now.png.
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect } from "vitest";

const FOLDER = "test/chromium/pictures";
const SQUARE = 8; // px
const TOLERANCE = 24; // of 255, in a square
const MOST_OFF = 0.02; // share of the squares that may lie beyond it

/** The fonts the pictures were taken with: with others every line breaks elsewhere. */
const FONTS = Object.freeze(["P052", "Liberation Sans"]);

export async function expectPicture(blank: Page, name: string, png: Buffer): Promise<void> {
  const missing = await missingFonts(blank);
  if (missing.length > 0 && !process.env.CI) {
    process.stderr.write(`\n*** NO ${missing.join(", ")}: the picture ${name} is NOT compared. Install its fonts.\n\n`);
    return;
  }
  expect(missing, "fonts the pictures need").toEqual([]);
  const [golden, now] = [join(FOLDER, `${name}.png`), join(FOLDER, `${name}.now.png`)];
  if (process.env.GAINSCAPE_PICTURES === "update") {
    writeFileSync(golden, png);
    rmSync(now, { force: true });
    return;
  }
  const off = existsSync(golden) ? await difference(blank, readFileSync(golden), png) : 1;
  if (off > MOST_OFF) writeFileSync(now, png);
  else rmSync(now, { force: true });
  expect(off, `${golden} differs; see ${now}`).toBeLessThanOrEqual(MOST_OFF);
}

/** A font that is not there measures like the one that stands in for it. */
const missingFonts = (blank: Page): Promise<string[]> =>
  blank.evaluate((fonts) => {
    const context = document.createElement("canvas").getContext("2d") as CanvasRenderingContext2D;
    const width = (family: string) => {
      context.font = `40px ${family}`;
      return context.measureText("Wide and slow, small and fast").width;
    };
    return fonts.filter((font) => width(`"${font}", monospace`) === width("monospace"));
  }, FONTS);

/** Share of squares that differ; 1 where the pictures differ in size by more than a few lines. */
async function difference(blank: Page, golden: Buffer, now: Buffer): Promise<number> {
  const urls = [golden, now].map((png) => `data:image/png;base64,${png.toString("base64")}`);
  return blank.evaluate(
    async ([urlsGiven, square, tolerance]) => {
      const images = await Promise.all(
        urlsGiven.map(async (url) => {
          const image = new Image();
          image.src = url;
          await image.decode();
          return image;
        }),
      );
      const [a, b] = images as [HTMLImageElement, HTMLImageElement];
      if (Math.abs(a.width - b.width) > 8 || Math.abs(a.height - b.height) > 0.06 * a.height) return 1;
      const [columns, rows] = [Math.floor(a.width / square), Math.floor(a.height / square)];
      const averaged = images.map((image) => {
        const canvas = document.createElement("canvas");
        [canvas.width, canvas.height] = [columns, rows];
        const context = canvas.getContext("2d") as CanvasRenderingContext2D;
        context.imageSmoothingQuality = "high";
        context.drawImage(image, 0, 0, columns, rows);
        return context.getImageData(0, 0, columns, rows).data;
      }) as [Uint8ClampedArray, Uint8ClampedArray];
      let beyond = 0;
      for (let k = 0; k < averaged[0].length; k += 4) {
        const off = [0, 1, 2].map((c) => Math.abs((averaged[0][k + c] as number) - (averaged[1][k + c] as number)));
        if (Math.max(...off) > tolerance) beyond++;
      }
      return beyond / (columns * rows);
    },
    [urls, SQUARE, TOLERANCE] as const,
  );
}
