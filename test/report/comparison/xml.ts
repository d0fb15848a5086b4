// A strict reader for the small part of XML 1.0 that our reports use: elements, attributes, text, character references.

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly Element[];
  readonly text: string;
}

const DECLARATION = /^<\?xml version="1\.0" encoding="UTF-8"\?>\n/;
const TOKEN = /<(\/?)([A-Za-z][\w.-]*)((?:\s+[A-Za-z][\w.-]*="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
// Characters XML 1.0 allows (section 2.2 of the recommendation, from memory).
const ALLOWED = /^(?:[\t\n\r\u0020-\ud7ff\ue000-\ufffd]|[\ud800-\udbff][\udc00-\udfff])*$/;

/** The root element; throws at anything that is not well formed. */
export function parseXml(text: string): Element {
  if (!DECLARATION.test(text)) throw new Error("no XML declaration");
  if (!ALLOWED.test(text)) throw new Error("a character XML forbids");
  const body = text.replace(DECLARATION, "");
  const root = { name: "", attributes: {}, children: [] as Element[], text: "" };
  const open: (typeof root)[] = [root];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < body.length) {
    const at = TOKEN.lastIndex;
    const found = TOKEN.exec(body);
    if (found === null) throw new Error(`not well formed at "${body.slice(at, at + 40)}"`);
    const [, closing, name = "", attributes = "", empty, words] = found;
    const top = open.at(-1) as typeof root;
    if (words !== undefined) top.text += decoded(words);
    else if (closing === "/") {
      if (top.name !== name || open.length === 1) throw new Error(`</${name}> closes <${top.name}>`);
      open.pop();
    } else {
      const element = { name, attributes: attributesOf(attributes), children: [], text: "" };
      top.children.push(element);
      if (empty !== "/") open.push(element);
    }
  }
  if (open.length !== 1 || root.children.length !== 1 || root.text.trim() !== "")
    throw new Error("not one root element");
  return root.children[0] as Element;
}

function attributesOf(text: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, name = "", value = ""] of text.matchAll(/([A-Za-z][\w.-]*)="([^"]*)"/g)) {
    if (name in found) throw new Error(`${name} given twice`);
    found[name] = decoded(value);
  }
  return found;
}

function decoded(text: string): string {
  const plain = text.replace(/&#(\d+);/g, (_, code: string) => String.fromCodePoint(Number(code)));
  if (/&(?!#)/.test(text)) throw new Error("an entity nobody declared");
  return plain;
}
