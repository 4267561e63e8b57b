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

// Due and overdue are judged against a day, so every run names one.
const settings = { "gudgeon.asOf": "2026-05-01" };
const folder = "tests/vscode/fixture";

export const runs: readonly Run[] = [
  { name: "desktop", suites: ["activation", "smoke", "records"], host: "node", folder, settings },
  { name: "restricted", suites: ["smoke", "records"], host: "node", folder, restricted: true, settings },
  { name: "installed", suites: ["smoke", "records"], host: "node", folder, installed: true, settings },
  {
    name: "sample-faulty",
    suites: ["pictures"],
    host: "node",
    folder: "samples/faulty",
    settings: { "gudgeon.asOf": "2026-05-02" },
  },
  { name: "sample-bench", suites: ["pictures"], host: "node", folder: "samples/bench", settings },
  { name: "worker", suites: ["activation", "smoke", "records"], host: "browser", folder, settings },
];
