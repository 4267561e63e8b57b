// The map of rooms, as data: what each may import. DEVELOPERS.md draws it; imports.test.ts holds the tree to it.
//
// To open a door between two rooms, change the row here and say why in the commit. A row is read like this: files whose
// path matches `files` may import values from the rooms in `values`, types only from the rooms in `types`, and the
// packages in `packages` (a name also allows its sub-paths; `node:*` allows every built-in of Node). A room may always
// import itself, unless `siblings` forbids it.

/** One row of the table. The first row whose `files` matches a path is that file's room. */
export type Room = {
  readonly name: string;
  readonly files: RegExp;
  readonly values: readonly string[];
  readonly types?: readonly string[];
  readonly packages: readonly string[];
  /** No file system, no clock, no `Date`, no Node built-in or global: its result depends on its arguments alone. */
  readonly pure?: true;
  /** Nothing asynchronous: a sweep must be able to call it without giving up its turn. */
  readonly synchronous?: true;
  /** `none`: the room's files do not import each other. `unit`: only within the same file or folder of the room. */
  readonly siblings?: "none" | "unit";
};

const languageServer = ["vscode-languageserver", "vscode-languageserver-protocol", "vscode-languageserver-types"];

export const rooms: readonly Room[] = [
  // How far apart two spellings are: messages everywhere offer the nearest word.
  { name: "grammar/nearest", files: /^grammar\/nearest\.ts$/, values: [], packages: [], pure: true },
  { name: "grammar", files: /^grammar\//, values: ["grammar/nearest"], packages: ["chevrotain"], pure: true },
  {
    name: "quantity",
    files: /^server\/quantity\//,
    values: [],
    packages: ["fraction.js", "temporal-polyfill"],
    pure: true,
  },
  { name: "calc", files: /^server\/calc\//, values: ["quantity"], packages: [], pure: true },
  {
    name: "facts",
    files: /^server\/facts\//,
    // A tolerance class is a way of writing bounds: `H7` on 26 mm is read as the limits that the tables of calc give.
    values: ["grammar", "grammar/nearest", "quantity", "calc"],
    // The digest of a seal: a pure computation, also in the browser.
    packages: ["@noble/hashes"],
    pure: true,
  },
  {
    // Signatures and allowed signers. Pure, but not synchronous: keys are computed with by the platform's WebCrypto.
    name: "evidence",
    files: /^server\/evidence\//,
    values: ["grammar", "facts", "quantity"],
    types: ["checking/ask"],
    packages: [],
    pure: true,
  },
  {
    name: "workspace",
    files: /^server\/workspace\//,
    values: ["grammar", "facts"],
    types: ["quantity", "rules/shape"],
    packages: [],
    pure: true,
  },
  {
    name: "totals",
    files: /^server\/totals\//,
    values: ["facts", "calc", "quantity"],
    types: ["workspace", "grammar", "checking/ask"],
    // Limits that are worked out from several readings are compared exactly.
    packages: ["fraction.js"],
    pure: true,
  },
  // Generated, and the only file that knows every rule.
  {
    name: "rules/index",
    files: /^server\/rules\/index\.ts$/,
    values: ["rules", "rules/shape"],
    packages: [],
    pure: true,
  },
  {
    name: "rules/shape",
    files: /^server\/rules\/[^/]+\.ts$/,
    values: ["quantity", "grammar/nearest"],
    types: ["facts", "grammar", "totals", "workspace", "checking/ask"],
    packages: [],
    pure: true,
    synchronous: true,
  },
  {
    name: "rules",
    files: /^server\/rules\//,
    // A total is asked for by the value that defines it; places and references are read the same way everywhere.
    values: ["rules/shape", "totals", "facts", "calc", "quantity", "grammar/nearest"],
    types: ["grammar", "checking/ask"],
    packages: [],
    pure: true,
    synchronous: true,
    siblings: "none",
  },
  // The shape of the object that every question goes through; sums and rules know this and nothing behind it.
  {
    name: "checking/ask",
    files: /^server\/checking\/ask\.ts$/,
    values: [],
    types: ["facts", "quantity", "totals", "workspace"],
    packages: [],
    pure: true,
    synchronous: true,
  },
  {
    name: "checking",
    files: /^server\/checking\//,
    values: ["checking/ask", "workspace", "facts", "totals", "rules/index"],
    types: ["rules/shape", "grammar", "quantity"],
    packages: [],
    pure: true,
  },
  // What all features share: the shape, what stands under the cursor, what its words name, tables, edits; and the list of them.
  {
    name: "features/shape",
    files: /^server\/features\/(feature|index|under-cursor|names|tables|edits)\.ts$/,
    values: [
      "features",
      "checking",
      "checking/ask",
      "workspace",
      "facts",
      "totals",
      "calc",
      "quantity",
      "grammar",
      "grammar/nearest",
    ],
    types: ["rules/shape"],
    packages: [],
  },
  {
    name: "features",
    files: /^server\/features\//,
    // A hover shows the sums that the command prints.
    values: [
      "report",
      "features/shape",
      "checking",
      "checking/ask",
      "workspace",
      "facts",
      "totals",
      "calc",
      "quantity",
      "grammar",
      "grammar/nearest",
    ],
    types: ["rules/shape"],
    packages: [],
    siblings: "unit",
  },
  {
    name: "report",
    files: /^server\/report\//,
    values: [
      "evidence",
      "rules/index",
      "grammar/nearest",
      "checking",
      "checking/ask",
      "workspace",
      "facts",
      "totals",
      "calc",
      "quantity",
      "grammar",
    ],
    types: ["rules/shape"],
    packages: [],
  },
  {
    name: "lsp",
    files: /^server\/lsp\//,
    // A day typed as a setting is read as a day in a record is.
    values: ["evidence", "features", "features/shape", "report", "checking", "workspace", "host", "quantity"],
    types: ["facts", "grammar", "totals", "rules/shape", "checking/ask"],
    packages: [...languageServer, "vscode-languageserver-textdocument", "vscode-uri"],
  },
  {
    name: "cli",
    files: /^server\/cli\//,
    values: [
      "evidence",
      "grammar",
      "quantity",
      "features",
      "features/shape",
      "report",
      "checking",
      "workspace",
      "host",
    ],
    types: ["facts", "grammar", "quantity", "totals", "rules/shape", "checking/ask"],
    // The terminal and the arguments are the command's own business; disk, clock and processes belong to the host.
    packages: ["node:util", "node:process", "node:path", "node:tty"],
  },
  { name: "host", files: /^server\/host\//, values: ["workspace"], packages: ["node:*"] },
  // Build script, run by npm and never shipped.
  { name: "client/build", files: /^client\/build\.mjs$/, values: [], packages: ["node:*", "esbuild"] },
  {
    name: "client",
    files: /^client\//,
    values: [],
    types: ["lsp"],
    packages: ["vscode", "vscode-languageclient"],
  },
];

/** Programs that run in a browser worker: nothing that they reach may need Node. */
export const browserEntries: readonly string[] = ["server/lsp/browser.ts", "client/browser.ts"];

/** Names that tie code to Node, to a clock or to chance; a pure room uses none of them as globals. */
export const impureGlobals: readonly string[] = [
  ...["Date", "performance", "process", "Buffer", "console", "require", "module", "__dirname", "__filename"],
  ...["global", "setTimeout", "setInterval", "setImmediate", "queueMicrotask", "fetch", "XMLHttpRequest", "WebSocket"],
  ...["Worker", "navigator", "localStorage", "indexedDB"],
];

/** Members of harmless objects that are not: `[object, member]`. */
export const impureMembers: readonly (readonly [string, string])[] = [
  ["Temporal", "Now"],
  ["Math", "random"],
];
