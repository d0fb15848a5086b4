// Elements made by hand. Every text goes in as text, never as markup.

type Attributes = Readonly<Record<string, string | number>>;
const SVG = "http://www.w3.org/2000/svg";

export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  return filled(document.createElement(tag), attributes, children);
}

export function draw<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[K] {
  return filled(document.createElementNS(SVG, tag), attributes, children);
}

function filled<E extends Element>(element: E, attributes: Attributes, children: readonly (Node | string)[]): E {
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  element.append(...children);
  return element;
}

/** The element of an id; RangeError where the page is not one of ours. */
export function byId<E extends Element = HTMLElement>(id: string): E {
  const found = document.getElementById(id);
  if (found === null) throw new RangeError(`no element #${id}`);
  return found as unknown as E;
}

/** Returns control to the browser once, so that pending input is handled first. */
export const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
