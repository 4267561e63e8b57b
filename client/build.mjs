// Bundles the five programs that leave this repository into dist/.
//
//   node client/build.mjs [--require-all] [--with-maps]
//
// An entry file that does not exist is named and left out, so that one room can be built before the next is written;
// with CI=true or --require-all it is an error, because a release without one of its programs is not a release.

import { existsSync, mkdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";

const root = join(import.meta.dirname, "..");
const requireAll = process.argv.includes("--require-all") || process.env["CI"] === "true";
const withMaps = process.argv.includes("--with-maps");

const manifest = /** @type {{ version: string }} */ (JSON.parse(readFileSync(join(root, "package.json"), "utf8")));

/**
 * The command seldom meets a line whose shape it does not ship a plan for, so it loads chevrotain only then. An imported name cannot be
 * lazy by itself; this stands in for the package and fetches the real one, built into a file of its own, at the first use.
 * @type {import("esbuild").Plugin}
 */
const lazyChevrotain = {
  name: "lazy-chevrotain",
  setup(bundle) {
    bundle.onResolve({ filter: /^chevrotain$/ }, () => ({ path: "chevrotain", namespace: "lazy" }));
    bundle.onLoad({ filter: /.*/, namespace: "lazy" }, () => ({
      resolveDir: root,
      contents: `
        import { createRequire } from "node:module";
        let loaded;
        const real = () => (loaded ??= createRequire(import.meta.url)("./cli-grammar.cjs"));
        export const createToken = (config) => real().createToken(config);
        export const Lexer = { get NA() { return real().Lexer.NA; } };
        export const EmbeddedActionsParser = new Proxy(function () {}, {
          get: (_, key) => real().EmbeddedActionsParser[key],
          construct: (_, args, made) => Reflect.construct(real().EmbeddedActionsParser, args, made),
        });`,
    }));
  },
};

/** @type {{ entry: string, out: string, options: import("esbuild").BuildOptions }[]} */
const programs = [
  {
    entry: "server/cli/main.ts",
    out: "dist/cli.mjs",
    // Code splitting keeps what only one command needs out of the file that every start has to read.
    options: {
      platform: "node",
      format: "esm",
      splitting: true,
      outdir: "dist",
      entryPoints: [{ in: "server/cli/main.ts", out: "cli" }],
      outExtension: { ".js": ".mjs" },
      chunkNames: "cli-[name]-[hash]",
      plugins: [lazyChevrotain],
    },
  },
  {
    entry: "node_modules/chevrotain/package.json",
    out: "dist/cli-grammar.cjs",
    options: {
      platform: "node",
      format: "cjs",
      stdin: { contents: 'export { createToken, Lexer, EmbeddedActionsParser } from "chevrotain";', resolveDir: root },
    },
  },
  { entry: "server/lsp/node.ts", out: "dist/server-node.cjs", options: { platform: "node", format: "cjs" } },
  { entry: "server/lsp/browser.ts", out: "dist/server-browser.js", options: { platform: "browser", format: "iife" } },
  {
    entry: "client/extension.ts",
    out: "dist/client-node.cjs",
    options: { platform: "node", format: "cjs", external: ["vscode"] },
  },
  {
    entry: "client/browser.ts",
    out: "dist/client-browser.cjs",
    options: { platform: "browser", format: "cjs", external: ["vscode"] },
  },
];

rmSync(join(root, "dist"), { recursive: true, force: true });
mkdirSync(join(root, "dist"), { recursive: true });

const missing = programs.filter((program) => !existsSync(join(root, program.entry)));
for (const program of missing) {
  console.log(`not built: ${program.out} (${program.entry} does not exist yet)`);
}
if (missing.length > 0 && requireAll) {
  console.error(`build: ${missing.length} of ${programs.length} entry files are missing`);
  process.exit(1);
}

for (const program of programs) {
  if (missing.includes(program)) continue;
  try {
    await build({
      absWorkingDir: root,
      ...(program.options.outdir ? {} : { outfile: program.out }),
      ...(program.options.outdir || program.options.stdin ? {} : { entryPoints: [program.entry] }),
      ...program.options,
      bundle: true,
      minify: true,
      // The oldest supported editor runs Node 20; the browser worker hosts are newer than this target everywhere.
      target: program.options.platform === "browser" ? "es2022" : "node20",
      define: { GUDGEON_VERSION: JSON.stringify(manifest.version) },
      sourcemap: withMaps ? "linked" : false,
      legalComments: "none",
      logLevel: "warning",
    });
  } catch {
    // esbuild has already printed the place and the reason.
    console.error(`build: ${program.out} failed`);
    process.exit(1);
  }
  console.log(`built ${program.out} (${Math.ceil(statSync(join(root, program.out)).size / 1024)} KiB)`);
}
