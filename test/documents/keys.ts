// The keys of a file format as rows of a table, from its schema.
import { z } from "zod";

interface Node {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly required?: readonly string[];
  readonly items?: Node;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly anyOf?: readonly Node[];
  readonly oneOf?: readonly Node[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
}

export interface Key {
  readonly path: string;
  readonly holds: string;
  readonly needed: boolean;
}

/** Every key, groups and lists of groups before what is in them. */
export const keysOf = (schema: z.ZodType): Key[] =>
  within(z.toJSONSchema(schema, { io: "input", target: "draft-7" }) as Node, "");

function within({ properties = {}, required = [] }: Node, before: string, above: readonly Node[] = []): Key[] {
  return Object.entries(properties).flatMap(([name, node]): Key[] => {
    const path = `${before}${name}`;
    const needed = required.includes(name);
    // A part that takes the forms of the whole again is not written out twice.
    if (node.anyOf?.every((form) => above.some((one) => JSON.stringify(one) === JSON.stringify(form))))
      return [{ path, holds: `as \`${before.slice(0, -1)}\``, needed }];
    return [{ path, holds: holdsOf(node), needed }, ...inner(node, path)];
  });
}

/** Keys of a group, of the groups in a list, or of each shape a group may have. */
function inner(node: Node, path: string): Key[] {
  if (node.properties !== undefined) return within(node, `${path}.`);
  if (node.anyOf !== undefined) return node.anyOf.flatMap((form) => within(form, `${path}.`, node.anyOf));
  if (node.items?.properties !== undefined) return within(node.items, `${path}[].`);
  const shapes = node.items?.oneOf ?? [];
  return shapes.flatMap((shape) => within(shape, `${path}[] ${shapeOf(shape)}: `).filter(({ holds }) => holds !== ""));
}

const shapeOf = ({ properties = {} }: Node): string =>
  Object.values(properties).find((node) => node.const !== undefined)?.const ?? "";

function holdsOf(node: Node): string {
  if (node.const !== undefined) return ""; // names the shape, which the path has already
  if (node.properties !== undefined) return "a group";
  if (node.type === "array") return listOf(node);
  if (node.description !== undefined)
    return node.description.replace(/; (units|with ±).*$/, "") + (node.description.includes("with ±") ? ", ±" : "");
  if (node.anyOf !== undefined)
    return [...new Set(node.anyOf.map((one) => (one.const ? `\`${one.const}\`` : holdsOf(one))))].join(" or ");
  if (node.enum !== undefined) return node.enum.map((word) => `\`${word}\``).join(" or ");
  if (node.type === "integer") return `a whole number, ${node.minimum} to ${node.maximum}`;
  if (node.type === "number") return `a number, ${node.minimum} to ${node.maximum}`;
  if (node.maxLength !== undefined) return `a text, up to ${node.maxLength} characters`;
  if (node.pattern?.includes("\\p{L}")) return "a name";
  if (node.pattern === "^[0-9a-f]{64}$") return "64 digits of a SHA-256";
  throw new Error(`no words for ${JSON.stringify(node)}`);
}

function listOf({ items = {}, minItems, maxItems }: Node): string {
  const count = minItems === maxItems ? `${minItems}` : `${minItems} to ${maxItems}`;
  const shapes = items.oneOf?.map((shape) => `\`${shapeOf(shape)}\``);
  if (shapes !== undefined) return `a list of ${count} groups, each ${shapes.join(" or ")}`;
  return `a list of ${count}${items.properties === undefined ? `, each ${holdsOf(items)}` : " groups"}`;
}
