// What the repository rules ask of one source file: which modules it names, which globals it uses, what is asynchronous
// in it. Read from the syntax tree, so that a comment or a string never counts.

import { parseSync } from "oxc-parser";

/** One module that a file names. `typeOnly`: erased before the program runs. */
export type Import = { readonly target: string; readonly typeOnly: boolean; readonly line: number };

export type Source = {
  readonly imports: readonly Import[];
  /** Free names used as values, with the line of the first use. */
  readonly globals: ReadonlyMap<string, number>;
  /** `object.member` pairs where `object` is a plain name, with the line of the first use. */
  readonly members: ReadonlyMap<string, number>;
  /** Lines with `async`, `await` or `Promise`. */
  readonly asynchronous: readonly number[];
  /** The `id` in `export default rule({ id: "..." })`, if the file has that shape. */
  readonly ruleId: string | undefined;
  /** Names of types, interfaces and classes declared here. */
  readonly typeNames: readonly string[];
};

type Node = { readonly type: string; readonly start: number; readonly [key: string]: unknown };

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as { type?: unknown }).type === "string";

const nameOf = (value: unknown): string | undefined =>
  isNode(value) && value.type === "Identifier" ? (value["name"] as string) : undefined;

const stringOf = (value: unknown): string | undefined =>
  isNode(value) && value.type === "Literal" && typeof value["value"] === "string" ? value["value"] : undefined;

/** Keys under which an identifier is a label and not a use of a variable. */
function isLabel(parent: Node, key: string): boolean {
  if (key === "property") return parent.type === "MemberExpression" && parent["computed"] !== true;
  if (key === "key") return parent["computed"] !== true && parent["shorthand"] !== true;
  if (key === "label") return true;
  return ["ImportSpecifier", "ExportSpecifier", "MetaProperty"].includes(parent.type) && key !== "local";
}

/** Keys under which an identifier introduces a name. */
function isBinding(parent: Node, key: string): boolean {
  if (key === "id") return true;
  if (key === "local") return parent.type.startsWith("Import");
  if (key === "params" || key === "param") return true;
  if (key === "argument") return parent.type === "RestElement";
  if (key === "left") return parent.type === "AssignmentPattern";
  if (key === "elements") return parent.type === "ArrayPattern";
  return false;
}

/** Reads one file. @throws when the file does not parse, with its name and the parser's own words. */
export function readSource(path: string, text: string): Source {
  const parsed = parseSync(path, text);
  const broken = parsed.errors[0];
  if (broken !== undefined) throw new Error(`${path} does not parse: ${broken.message}`);

  const lineStarts = [0];
  for (let i = 0; i < text.length; i++) if (text[i] === "\n") lineStarts.push(i + 1);
  const lineAt = (offset: number): number => {
    let line = 0;
    while (line + 1 < lineStarts.length && lineStarts[line + 1] <= offset) line++;
    return line + 1;
  };

  const imports: Import[] = [];
  const uses = new Map<string, number>();
  const bound = new Set<string>();
  const members = new Map<string, number>();
  const asynchronous: number[] = [];
  const typeNames: string[] = [];
  let ruleId: string | undefined;

  const remember = (map: Map<string, number>, name: string, node: Node): void => {
    if (!map.has(name)) map.set(name, lineAt(node.start));
  };

  const addImport = (node: Node, target: string | undefined, typeOnly: boolean): void => {
    if (target !== undefined) imports.push({ target, typeOnly, line: lineAt(node.start) });
  };

  const visit = (node: Node, parent: Node | undefined, key: string, inPattern: boolean): void => {
    const { type } = node;
    if (type === "ImportDeclaration" || type === "ExportNamedDeclaration" || type === "ExportAllDeclaration") {
      const kind = type === "ImportDeclaration" ? node["importKind"] : node["exportKind"];
      const specifiers = Array.isArray(node["specifiers"]) ? node["specifiers"].filter(isNode) : [];
      // `import { type A }` is written per name; a statement of such names alone brings no value in either.
      const allTypes =
        specifiers.length > 0 && specifiers.every((s) => (s["importKind"] ?? s["exportKind"]) === "type");
      addImport(node, stringOf(node["source"]), kind === "type" || allTypes);
    }
    if (type === "ImportExpression") addImport(node, stringOf(node["source"]), false);
    if (type === "TSImportType") addImport(node, stringOf(node["source"] ?? node["argument"]), true);
    if (type === "CallExpression" && nameOf(node["callee"]) === "require") {
      addImport(node, stringOf((node["arguments"] as unknown[])[0]), false);
    }
    if (node["async"] === true || type === "AwaitExpression" || (type === "Identifier" && node["name"] === "Promise")) {
      asynchronous.push(lineAt(node.start));
    }
    if (type === "MemberExpression" && node["computed"] !== true) {
      const object = nameOf(node["object"]);
      const member = nameOf(node["property"]);
      if (object !== undefined && member !== undefined) remember(members, `${object}.${member}`, node);
      // `globalThis.process` is `process`.
      if (object === "globalThis" && member !== undefined) remember(uses, member, node);
    }
    if (/^(TSTypeAliasDeclaration|TSInterfaceDeclaration|ClassDeclaration)$/.test(type)) {
      const name = nameOf(node["id"]);
      if (name !== undefined) typeNames.push(name);
    }
    if (type === "ExportDefaultDeclaration" && isNode(node["declaration"])) {
      const call = node["declaration"];
      const first = call.type === "CallExpression" ? (call["arguments"] as unknown[])[0] : undefined;
      if (nameOf(call["callee"]) === "rule" && isNode(first) && Array.isArray(first["properties"])) {
        const id = first["properties"].filter(isNode).find((property) => nameOf(property["key"]) === "id");
        ruleId = stringOf(id?.["value"]);
      }
    }
    if (type === "Identifier" && parent !== undefined && !isLabel(parent, key)) {
      const name = node["name"] as string;
      if (inPattern || isBinding(parent, key)) bound.add(name);
      else remember(uses, name, node);
    }

    for (const childKey of Object.keys(node)) {
      const value = node[childKey];
      const children = Array.isArray(value) ? value : [value];
      for (const child of children) {
        if (!isNode(child)) continue;
        const patternChild =
          (inPattern && type === "Property" && childKey === "value" && child.type === "Identifier") ||
          (type === "ObjectPattern" && childKey === "properties");
        visit(child, node, childKey, patternChild);
      }
    }
  };
  visit(parsed.program as unknown as Node, undefined, "", false);

  for (const name of bound) uses.delete(name);
  return { imports, globals: uses, members, asynchronous, ruleId, typeNames };
}
