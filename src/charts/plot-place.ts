// Where in a drawn figure its plot lies: what a script lays over the picture goes exactly there.

export interface PlotPlace {
  // shares of the whole figure
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Of a figure's SVG whose plot has the given size in px. RangeError where the SVG is not one of ours. */
export function plotPlace(svg: string, plot: { readonly width: number; readonly height: number }): PlotPlace {
  const [, width, height, x, y] =
    /viewBox="0 0 ([\d.]+) ([\d.]+)"[^>]*><g [^>]*transform="translate\(([\d.]+),([\d.]+)\)"/.exec(svg) ?? [];
  if (width === undefined || height === undefined) throw new RangeError("a figure without a viewBox and a plot");
  const [across, down] = [Number(width), Number(height)];
  return { left: Number(x) / across, top: Number(y) / down, width: plot.width / across, height: plot.height / down };
}
