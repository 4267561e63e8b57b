// Which suites run in which editor window. Each row costs about ten seconds, so suites that can share a window do.

export type Run = {
  readonly name: string;
  /** Files of suite/ without their ending, in the order in which they run. */
  readonly suites: readonly string[];
  /** `node`: the extension host with Node, as on a desktop. `browser`: the web worker host, as on a web site. */
  readonly host: "node" | "browser";
  /** The folder to open, from the root of the project; a copy is opened, so tests may change files in it. */
  readonly folder: string;
  /** Opens the folder in restricted mode. */
  readonly restricted?: boolean;
  /** Packs the extension and installs the package, as a person would, in place of loading it from its folder. */
  readonly installed?: boolean;
  /** Settings of the person at the editor. */
  readonly settings?: Readonly<Record<string, unknown>>;
};

export const runs: readonly Run[] = [
  { name: "desktop", suites: ["smoke"], host: "node", folder: "tests/vscode/fixture" },
  { name: "restricted", suites: ["smoke"], host: "node", folder: "tests/vscode/fixture", restricted: true },
  { name: "installed", suites: ["smoke"], host: "node", folder: "tests/vscode/fixture", installed: true },
  { name: "worker", suites: ["smoke"], host: "browser", folder: "tests/vscode/fixture" },
];
