// Remarks on rows and cells that cannot be read.
import { shortened } from "../base/problem.js";
import { channelsOf } from "./channels.js";
import type { LogFacts } from "./facts.js";
import type { Remark } from "./log.js";
import type { Missing } from "./log-rows.js";
import { counted, grouped, shareText } from "./tally.js";

export function rowRemarks({ file, declaration, rows }: Pick<LogFacts, "file" | "declaration" | "rows">): Remark[] {
  const { broken, timeless, missing } = rows;
  const remarks: Remark[] = [];
  if (broken.rows > 0) {
    const text = `${counted(broken.rows, "row")} with another number of fields than the ${broken.names} columns (here ${broken.fields}): left out`;
    remarks.push({ file, row: broken.line, column: null, text });
  }
  if (timeless.rows > 0) {
    const text = `${counted(timeless.rows, "row")} without a time (here "${shortened(timeless.found)}"): left out`;
    remarks.push({ file, row: timeless.line, column: declaration.time.name, text });
  }
  const cells = channelsOf(declaration).flatMap(({ column: { name } }, c) =>
    cellRemarks(missing[c], rows.time.length).map(([row, text]): Remark => ({ file, row, column: name, text })),
  );
  return [...remarks, ...cells];
}

function cellRemarks(missing: Missing | undefined, rows: number): (readonly [row: number, text: string])[] {
  if (missing === undefined) return [];
  const { empty, emptyLine, wrong, wrongLine, found } = missing;
  const remarks: (readonly [number, string])[] = [];
  if (empty > 0)
    remarks.push([emptyLine, `empty in ${counted(empty, "row")} of ${grouped(rows)} (${shareText(empty / rows)})`]);
  if (wrong > 0)
    remarks.push([wrongLine, `no number in ${counted(wrong, "row")} (here "${shortened(found)}"): taken as missing`]);
  return remarks;
}
