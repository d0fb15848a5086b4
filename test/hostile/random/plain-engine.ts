// What a figure's layers hold, as an SVG of their own: the drawing engine takes a hundred times as long, and draws the
// very coordinates it is given. Axes are left to the engine.

interface Drawn {
  readonly mark: { readonly type: string; readonly text?: string };
  readonly data: { readonly values: readonly { readonly geometry?: Geometry }[] };
  readonly encoding?: { readonly x?: { readonly value?: number }; readonly y?: { readonly value?: number } };
}

type Point = readonly [number, number];
type Geometry =
  | { readonly type: "Polygon" | "MultiLineString"; readonly coordinates: readonly (readonly Point[])[] }
  | { readonly type: "MultiPolygon"; readonly coordinates: readonly (readonly (readonly Point[])[])[] };

interface Figure {
  readonly width: number;
  readonly height: number;
  readonly layer: readonly unknown[];
}

export async function plainSvg({ width, height, layer }: Figure): Promise<string> {
  const parts = (layer as readonly Drawn[]).map(partOf);
  return `<svg viewBox="0 0 ${width} ${height}"><g transform="translate(0,0)">${parts.join("")}</g></svg>`;
}

function partOf({ mark, data, encoding }: Drawn): string {
  if (mark.type === "text") return `<text x="${encoding?.x?.value}" y="${encoding?.y?.value}">${mark.text}</text>`;
  const shape = data.values[0]?.geometry;
  if (shape === undefined) return "";
  const lines = shape.type === "MultiPolygon" ? shape.coordinates.flat() : shape.coordinates;
  return lines.length === 0 ? "" : `<path d="${lines.map((line) => `M${line.join("L")}`).join("")}"/>`;
}
