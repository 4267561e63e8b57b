/** Every feature of the editor, one a line; each is a pure function from the checked workspace and a place in it to plain data. */
export { codeActions, fixAll } from "./code-actions.ts";
export { completion } from "./completion.ts";
export { definition } from "./definition.ts";
export { documentLinks } from "./document-links.ts";
export { documentSymbols } from "./document-symbols.ts";
export { foldingRanges } from "./folding.ts";
export { formatDocument, formatRange } from "./formatting.ts";
export { highlights } from "./highlights.ts";
export { hover } from "./hover.ts";
export { references } from "./references.ts";
export { prepareRename, rename } from "./rename.ts";
export { selectionRanges } from "./selection-ranges.ts";
export { workspaceSymbols } from "./workspace-symbols.ts";
