import { afterEach, expect, test, vi } from "vitest";
import { Checker } from "../../server/checking/checker.ts";
import { RULES } from "../../server/rules/index.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { type Client, type Folder, folderWith } from "./client.ts";
import { serverInProcess } from "./in-process.ts";
import { freshCodes, JOB, jobText, lineWith, SPARE, shopFiles } from "./records.ts";

const settings = { asOf: "2026-05-01" };

afterEach(() => {
  vi.restoreAllMocks();
});

async function opened(client: Client, folder: Folder): Promise<string> {
  const uri = folder.uriOf(JOB);
  await client.ready();
  await client.open(uri, jobText());
  await client.until("the opened version", () => client.pushed.get(uri)?.version === 1);
  return uri;
}

test("an edit on which the checker fails is not lost: it is built anew from the lines", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  const uri = await opened(client, folder);
  vi.spyOn(Workspace.prototype, "edit").mockImplementationOnce(function (
    this: Workspace,
    ...args: Parameters<Workspace["edit"]>
  ) {
    // Fails half way: the lines have changed and the blocks have not.
    this.document(args[0])?.lines.splice(args[1], args[2], ...args[3]);
    throw new Error("made to fail");
  });
  await client.changeLine(uri, lineWith(jobText(), "59,911"), 28, 29, ".");
  await client.until("the repaired line", () => !client.codes(uri).some((code) => code.endsWith("comma-number")));
  expect(client.codes(uri)).toEqual(freshCodes(JOB).filter((code) => !code.endsWith("comma-number")));
  expect(client.shown).toHaveLength(1);
  expect(client.logged.filter((line) => line.includes("made to fail"))).toHaveLength(1);
  const report = await client.request<string>("gudgeon/report", null);
  expect(report).toContain("made to fail");
  expect(report).not.toContain("Ebbets");
});

test("a check that fails for ever is given up until the text changes, and said", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  const uri = await opened(client, folder);
  const failing = vi.spyOn(Checker.prototype, "sweep").mockImplementation(() => {
    throw new Error("fails every time");
  });
  const line = lineWith(jobText(), "59,911");
  await client.changeLine(uri, line, 28, 29, ".");
  const status = await client.ready();
  expect(status.state).toBe("failed");
  expect(status.problems.join()).toContain("fails every time");
  expect(client.shown).toHaveLength(1);
  failing.mockRestore();
  await client.changeLine(uri, line, 28, 29, ",");
  await client.connection.sendNotification("gudgeon/cursor", { uri, line: 0 });
  await client.until(
    "all findings again",
    () => client.codes(uri).length === freshCodes(JOB).length && client.codes(folder.uriOf(SPARE)).length === 1,
  );
  expect((await client.ready()).state).toBe("ready");
});

test("a rule that fails is one finding, and the others judge on", async () => {
  const comma = RULES.find((rule) => rule.id === "syntax/comma-number");
  expect(comma).toBeDefined();
  vi.spyOn(comma as unknown as { check(): void }, "check").mockImplementation(() => {
    throw new Error("this rule is broken");
  });
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  const codes = client.codes(folder.uriOf(JOB));
  expect(codes.some((code) => code.endsWith("internal/rule-failed"))).toBe(true);
  expect(codes).toContain("12:5 limit/out-of-limit");
  expect(client.logged.filter((line) => line.includes("this rule is broken"))).toHaveLength(1);
  expect(client.shown).toHaveLength(1);
});

test("a request that fails is answered as failed, logged once, and the next is served", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  for (let i = 0; i < 3; i++)
    await expect(
      client.request("textDocument/hover", { textDocument: { uri: folder.uriOf(JOB) }, position: null }),
    ).rejects.toThrow(/textDocument\/hover failed/u);
  expect(client.logged.filter((line) => line.includes("textDocument/hover"))).toHaveLength(1);
  expect(client.shown).toHaveLength(1);
  expect(await client.request("textDocument/documentSymbol", { textDocument: { uri: folder.uriOf(JOB) } })).not.toEqual(
    [],
  );
});

test("a file with more findings than an editor can bear lists the gravest and says how many more there are", async () => {
  const lines = Array.from({ length: 2_500 }, (_one, i) => `  mesure piston.skirt[${i}] 1 mm`);
  using folder = folderWith({
    ...shopFiles(),
    "many.gudgeon": `entry E9 2026-04-01 inspect "Many" job J26-101\n${lines.join("\n")}\n`,
  });
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  const found = client.pushed.get(folder.uriOf("many.gudgeon"))?.diagnostics ?? [];
  expect(found).toHaveLength(2_001);
  expect(found[0]?.code).toBe("internal/more-findings");
  expect(found[0]?.message).toMatch(/^[5-9]\d\d more findings/u);
  expect(client.codes(folder.uriOf(JOB))).toContain("12:5 limit/out-of-limit");
});
