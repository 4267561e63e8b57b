import { expect, test, vi } from "vitest";
import { folderWith } from "./client.ts";
import { serverInProcess } from "./in-process.ts";
import { freshCodes, JOB, jobText, lineWith, SHOP, SPARE, shopFiles } from "./records.ts";

const settings = { asOf: "2026-05-01" };

test("the day of the settings decides, at once and in both directions", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  await client.ready();
  const uri = folder.uriOf(JOB);
  const future = (): boolean => client.codes(uri).some((code) => code.endsWith("sign/in-the-future"));
  const before = client.codes(uri);
  expect(future()).toBe(false);
  await client.set({ asOf: "2026-03-01" });
  await client.until("the signature of the next day", future);
  expect((await client.status()).asOf).toBe("2026-03-01");
  await client.set(settings);
  await client.until("the findings of the later day", () => !future());
  expect(client.codes(uri)).toEqual(before);
});

test("without a day of its own the server follows the clock past midnight", async () => {
  using folder = folderWith(shopFiles());
  let today = "2026-05-01";
  let midnight: (() => void) | undefined;
  const real = globalThis.setTimeout;
  const timers = vi.spyOn(globalThis, "setTimeout").mockImplementation((run: () => void, time_ms?: number) => {
    // The one timer that is set for midnight; a second is added to be surely past it.
    if (time_ms === 5_001_000) midnight = run;
    return real(run, time_ms === 5_001_000 ? 2_000_000_000 : time_ms);
  });
  try {
    await using server = await serverInProcess(
      { folders: [folder], settings: {} },
      { today: () => today, untilMidnight: () => 5_000_000 },
    );
    await server.client.ready();
    expect((await server.client.status()).asOf).toBe("2026-05-01");
    today = "2026-05-02";
    expect(midnight).toBeDefined();
    midnight?.();
    const status = await server.client.ready();
    expect(status.asOf).toBe("2026-05-02");
  } finally {
    timers.mockRestore();
  }
});

test("on save: an edit shows nothing before the file is saved", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings: { ...settings, run: "onSave" } });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  await client.ready();
  await client.open(uri, jobText());
  await client.ready();
  const before = client.codes(uri);
  await client.changeLine(uri, lineWith(jobText(), "59,911"), 28, 29, ".");
  expect((await client.ready()).state).toBe("waiting");
  expect(client.codes(uri)).toEqual(before);
  await client.save(uri);
  await client.until("the finding to go", () => !client.codes(uri).some((code) => code.endsWith("comma-number")));
  expect((await client.ready()).state).toBe("ready");
});

test("only open files: a file shows its findings while it is open", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings: { ...settings, scope: "openFiles" } });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  await client.ready();
  expect(client.pushes).toEqual([]);
  await client.open(uri, jobText());
  await client.until("findings of the open file", () => client.codes(uri).length === freshCodes(JOB).length);
  expect([...client.pushed.keys()]).toEqual([uri]);
  await client.close(uri);
  await client.until("nothing", () => client.codes(uri).length === 0);
  await client.set(settings);
  await client.until("findings of all files", () => client.codes(folder.uriOf(SPARE)).length === 1);
  expect(client.codes(uri)).toHaveLength(freshCodes(JOB).length);
});

test("a wrong setting falls back and is said", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({
    folders: [folder],
    settings: { asOf: "the first of May", delay: -1 },
  });
  const status = await server.client.ready();
  expect(status.asOf).toBe("2026-05-01");
  expect(status.problems.join(" ")).toMatch(/gudgeon\.delay .* gudgeon\.asOf /su);
});

test("with a delay the findings follow all the same", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings: { ...settings, delay: 30 } });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  await client.ready();
  await client.open(uri, jobText());
  const version = await client.changeLine(uri, lineWith(jobText(), "59,911"), 28, 29, ".");
  await client.until("the version", () => client.pushed.get(uri)?.version === version);
  expect(client.codes(uri).some((code) => code.endsWith("comma-number"))).toBe(false);
});

test("new findings on the line being typed on wait for the cursor, a save, or another line", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  const air = lineWith(jobText(), "air 20 C");
  const broken = (): boolean => client.codes(uri).some((code) => code.startsWith(`${air + 1}:`));
  await client.ready();
  await client.open(uri, jobText());
  const breakLine = async (): Promise<void> => {
    const version = await client.changeLine(uri, air, 2, 5, "aur");
    await client.until("the version", () => client.pushed.get(uri)?.version === version);
    expect(broken()).toBe(false);
  };
  const mend = async (): Promise<void> => {
    await client.changeLine(uri, air, 2, 5, "air");
    await client.until("the mended line", () => !broken());
  };
  await breakLine();
  await client.connection.sendNotification("gudgeon/cursor", { uri, line: air });
  expect((await client.ready()).state).toBe("ready");
  expect(broken()).toBe(false);
  await client.connection.sendNotification("gudgeon/cursor", { uri, line: air + 1 });
  await client.until("the finding once the cursor left", broken);
  await mend();
  await breakLine();
  await client.save(uri);
  await client.until("the finding once saved", broken);
  await mend();
  await breakLine();
  await client.changeLine(uri, 0, 0, 0, " ");
  await client.until("the finding once another line was edited", broken);
  // What was shown before stays while its line is typed on, and goes with its cause.
  const row = lineWith(jobText(), "  2 60.078");
  const version = await client.changeLine(uri, row, 8, 10, "79");
  await client.until("the version", () => client.pushed.get(uri)?.version === version);
  expect(client.codes(uri)).toContain(`${row + 1}:5 limit/out-of-limit`);
});

test("new findings on the line being typed on wait no longer than a moment", async () => {
  using folder = folderWith(shopFiles());
  await using server = await serverInProcess({ folders: [folder], settings }, { held_ms: 50 });
  const { client } = server;
  const uri = folder.uriOf(JOB);
  const air = lineWith(jobText(), "air 20 C");
  await client.ready();
  await client.open(uri, jobText());
  await client.changeLine(uri, air, 2, 5, "aur");
  await client.until("the finding after a moment", () =>
    client.codes(uri).some((code) => code.startsWith(`${air + 1}:`)),
  );
  expect(client.codes(folder.uriOf(SHOP)).length).toBeGreaterThan(0);
});
