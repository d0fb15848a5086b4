// Tables in Markdown of text that may hold any character.

export type Cell = string | { readonly strong: string } | { readonly link: string; readonly to: string };

/** With a head; texts are escaped, so that none can become markup. */
export function table(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  const cellText = (cell: Cell) => {
    if (typeof cell === "string") return escaped(cell);
    return "strong" in cell ? `**${escaped(cell.strong)}**` : `[${escaped(cell.link)}](<${encodeURI(cell.to)}>)`;
  };
  const body = rows.map((row) => line(row.map(cellText)));
  return `${[line(head), line(head.map(() => "---")), ...body].join("\n")}\n`;
}

/** Every character that Markdown or HTML could read as markup. */
export const escaped = (text: string): string =>
  unlinked(text)
    .replace(/[\\`*_{}[\]#|~!]/g, (mark) => `\\${mark}`)
    .replace(/[&<>]/g, (mark) => ENTITIES[mark] ?? mark);

const ENTITIES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;" };

/**
 * Addresses, mentions and numbers of issues become links without any markup, also where each of their characters is
 * escaped: a blank in them is what no reader links across.
 */
const unlinked = (text: string): string =>
  text
    .replace(/:(?=\/\/)/g, ": ")
    .replace(/\bwww\.(?=\S)/gi, (start) => `${start} `)
    .replace(/\b(mailto|xmpp|tel|data|javascript):(?=\S)/gi, (start) => `${start} `)
    .replace(/@(?=\S)/g, "@ ")
    .replace(/#(?=\d)/g, "# ");
