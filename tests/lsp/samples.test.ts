/** Editor and command share one checking path: on every sample shop they say the same. */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { loadShop } from "../../server/cli/shop.ts";
import { day } from "../support/shop.ts";
import { type Folder, projectRoot } from "./client.ts";
import { serverInProcess } from "./in-process.ts";

const samples = join(projectRoot, "samples");
const AS_OF = "2026-05-02";

const shops = readdirSync(samples, { withFileTypes: true })
  .filter(
    (entry) => entry.isDirectory() && readdirSync(join(samples, entry.name)).some((name) => name.endsWith(".gudgeon")),
  )
  .map((entry) => entry.name);

test.each(shops)("the editor shows of samples/%s what the command says", async (name) => {
  const path = join(samples, name);
  const folder: Folder = {
    path,
    uri: pathToFileURL(path).href,
    uriOf: (file) => pathToFileURL(join(path, file)).href,
    write: () => undefined,
    [Symbol.dispose]: () => undefined,
  };
  const { checker } = await loadShop([path], day(AS_OF));
  const said = checker
    .allFindings()
    .filter((one) => one.quiet === undefined)
    .map(
      (one) => `${folder.uriOf(one.path)}:${one.line}:${one.from}-${one.to} ${one.finding.code} ${one.finding.message}`,
    );
  await using server = await serverInProcess({ folders: [folder], settings: { asOf: AS_OF } });
  const { client } = server;
  await client.ready();
  const shown = (): string[] =>
    [...client.pushed].flatMap(([uri, { diagnostics }]) =>
      diagnostics.map(
        ({ range, code, message }) =>
          `${uri}:${range.start.line}:${range.start.character}-${range.end.character} ${String(code)} ${typeof message === "string" ? message : message.value}`,
      ),
    );
  // Photos, logs and signatures are looked at while the first findings are shown already.
  await client
    .until("as many findings as the command has", () => shown().length === said.length)
    .catch(() => undefined);
  expect(shown().toSorted()).toEqual(said.toSorted());
  expect((await client.status()).problems).toEqual([]);
});
