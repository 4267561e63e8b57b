import { expect, test } from "vitest";
import { folderWith, spawnServer } from "./client.ts";
import { freshCodes, JOB, jobText, SHOP, SPARE, shopFiles } from "./records.ts";

const settings = { asOf: "2026-05-01" };

test("findings of every file are pushed, with pages and the places that they point to", async () => {
  using folder = folderWith({
    ...shopFiles(),
    "node_modules/x/other.gudgeon": "nonsense",
    ".old/other.gudgeon": "nonsense",
  });
  await using server = await spawnServer({ folders: [folder], settings });
  const { client } = server;
  const status = await client.ready();
  expect(status).toMatchObject({ state: "ready", shops: 1, files: 3, problems: [], asOf: "2026-05-01" });
  expect(client.codes(folder.uriOf(JOB))).toEqual(freshCodes(JOB));
  expect(freshCodes(JOB)).toContain("12:5 limit/out-of-limit");
  expect(freshCodes(JOB)).toContain("13:45 photo/changed-bytes");
  expect(client.codes(folder.uriOf(SPARE))).toEqual(["2:12 name/never-used"]);
  expect([...client.pushed.keys()].sort()).toEqual([JOB, SHOP, SPARE].map((name) => folder.uriOf(name)).sort());
  const over = client.pushed.get(folder.uriOf(JOB))?.diagnostics.find((one) => one.code === "limit/out-of-limit");
  expect(over).toMatchObject({
    source: "gudgeon",
    severity: 1,
    codeDescription: { href: "gudgeon-rule:/limit/out-of-limit.md" },
  });
  expect(over?.relatedInformation?.[0]?.location.uri).toBe(folder.uriOf(SHOP));
  expect(client.pushed.get(folder.uriOf(JOB))?.version).toBeUndefined();
  const page = await client.request<{ text: string }>("workspace/textDocumentContent", {
    uri: "gudgeon-rule:/limit/out-of-limit.md",
  });
  expect(page.text).toMatch(/^# limit\/out-of-limit\n/u);
  expect(server.errors()).toBe("");
});

test("initialize is answered before the folder is read, and names what the server can do", async () => {
  using folder = folderWith(shopFiles());
  await using server = await spawnServer({ folders: [folder], settings });
  const can = server.client.initialized?.capabilities;
  expect(can).toMatchObject({
    textDocumentSync: { change: 2, openClose: true },
    hoverProvider: true,
    renameProvider: { prepareProvider: true },
  });
  expect(server.client.initialized?.serverInfo?.name).toBe("Gudgeon");
  // Asked at once, before the session is there: the answer waits, and is not refused.
  expect((await server.client.status()).shops).toBe(1);
});

test("an edit is answered with its version, and with what is found now", async () => {
  using folder = folderWith(shopFiles());
  await using server = await spawnServer({ folders: [folder], settings });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  await client.ready();
  await client.open(uri, jobText());
  await client.until("the opened version", () => client.pushed.get(uri)?.version === 1);
  const row = "  2 60.0";
  const version = await client.changeLine(uri, 11, row.length, row.length + 2, "58");
  await client.until("the second version", () => client.pushed.get(uri)?.version === version);
  expect(client.codes(uri).some((code) => code.startsWith("12:"))).toBe(false);
});

test("messages that are no messages are survived", async () => {
  using folder = folderWith(shopFiles());
  await using server = await spawnServer({ folders: [folder], settings });
  const { client, child } = server;
  await client.ready();
  for (const body of [
    "{not json",
    "[]",
    "null",
    '{"jsonrpc":"2.0"}',
    '{"jsonrpc":"2.0","method":"textDocument/didChange","params":{}}',
    '{"jsonrpc":"2.0","method":"textDocument/didOpen","params":null}',
  ]) {
    child.stdin?.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  }
  await expect(client.request("textDocument/hover", { textDocument: { uri: folder.uriOf(JOB) } })).rejects.toThrow(
    /failed/u,
  );
  await expect(client.request("textDocument/nothingOfTheKind", {})).rejects.toThrow(/Unhandled method/u);
  const status = await client.ready();
  expect(status.files).toBe(3);
  const hover = await client.request<{ contents: { value: string } } | null>("textDocument/hover", {
    textDocument: { uri: folder.uriOf(JOB) },
    position: { line: 4, character: 6 },
  });
  expect(hover?.contents.value).toContain("J26-101");
});

test("a cancelled request is answered as cancelled, and the next one as usual", async () => {
  using folder = folderWith(shopFiles());
  await using server = await spawnServer({ folders: [folder], settings });
  const { client, child } = server;
  await client.ready();
  const write = (message: object): string => {
    const body = JSON.stringify({ jsonrpc: "2.0", ...message });
    return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
  };
  // In one piece, so that the server reads the cancellation before it has answered.
  const answers = new Promise<string>((done) => {
    let text = "";
    child.stdout?.on("data", (chunk: Buffer) => {
      text += chunk.toString();
      if (text.includes('"id":9002')) done(text);
    });
  });
  const ask = { textDocument: { uri: folder.uriOf(JOB) }, position: { line: 4, character: 6 } };
  child.stdin?.write(
    write({ id: 9001, method: "textDocument/hover", params: ask }) +
      write({ method: "$/cancelRequest", params: { id: 9001 } }) +
      write({ id: 9002, method: "textDocument/hover", params: ask }),
  );
  const text = await answers;
  expect(text).toMatch(/"id":9001,"error":\{"code":-32800/u);
  expect(text).toMatch(/"id":9002,"result":\{/u);
});

test("the server ends when the editor's end of the pipe is closed", async () => {
  using folder = folderWith(shopFiles());
  const server = await spawnServer({ folders: [folder], settings });
  await server.client.ready();
  const ended = new Promise<number | null>((done) => server.child.once("exit", done));
  server.child.stdin?.end();
  expect(await ended).not.toBeNull();
  server.client.connection.dispose();
});

test("in restricted mode no named file is opened until the folder is trusted", async () => {
  using folder = folderWith(shopFiles());
  await using server = await spawnServer({ folders: [folder], settings, initialization: { trusted: false } });
  const { client } = server;
  const status = await client.ready();
  expect(status.problems.join()).toContain("not trusted");
  expect(client.codes(folder.uriOf(JOB))).not.toContain("13:45 photo/changed-bytes");
  expect(client.codes(folder.uriOf(JOB))).toContain("12:5 limit/out-of-limit");
  await client.connection.sendNotification("gudgeon/trusted");
  await client.until("the photo to be looked at", () =>
    client.codes(folder.uriOf(JOB)).includes("13:45 photo/changed-bytes"),
  );
});

test("a client that tells of no changes on disk is served all the same", async () => {
  using folder = folderWith(shopFiles());
  await using server = await spawnServer({ folders: [folder], settings, watchesFiles: false });
  const { client } = server;
  await client.ready();
  expect(client.registered).not.toContain("workspace/didChangeWatchedFiles");
  folder.write(SPARE, "nonsense here\n");
  await client.until("the change on disk", () =>
    client.codes(folder.uriOf(SPARE)).some((code) => code.includes("syntax/")),
  );
  expect(client.codes(folder.uriOf(SPARE)).some((code) => code.includes("name/never-used"))).toBe(false);
});
