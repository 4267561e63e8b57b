/** What `npm run generate` writes for this room. */
import { languageReference } from "./reference.ts";
import { textmateGrammar } from "./textmate.ts";

/** The project's files, as far as the generator reads them. */
interface Tree {
  read(path: string): string;
}

/** @returns the text of each generated file, by its path from the root */
export function outputs(tree: Tree): Record<string, string> {
  return {
    "grammar/gudgeon.tmLanguage.json": `${JSON.stringify(textmateGrammar(), null, 2)}\n`,
    "grammar/reference.md": languageReference(tree.read("grammar/reference-prose.md")),
  };
}
