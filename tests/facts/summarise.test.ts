/** What the lines of a block say, and what is kept when some of them say nothing that can be read. */
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { formatLines } from "../../grammar/print.ts";
import { same } from "../../server/facts/same.ts";
import { summarise } from "../../server/facts/summarise.ts";
import type { Block, WorkBlock } from "../../server/facts/types.ts";
import { Workspace } from "../../server/workspace/workspace.ts";
import { recordsOf, seeded } from "../incremental/random-edits.ts";

const HEAD = "entry E1 2026-02-19 inspect job J1";

function entry(...lines: string[]): WorkBlock {
  return summarise([HEAD, ...lines], 0, lines.length + 1) as WorkBlock;
}

function blocksOf(text: string): Block[] {
  const workspace = new Workspace();
  workspace.setText("a.gudgeon", text);
  return workspace.document("a.gudgeon")?.blocks.map((one) => one.facts) ?? [];
}

const cells = (block: WorkBlock): string[] =>
  block.readings.map((one) => `${one.feature}[${one.path}] ${one.result} ${one.measure?.text ?? ""}`.trim());
const problems = (block: Block): string[] => block.problems.map((one) => `${one.at}:${one.from}-${one.to} ${one.what}`);

describe("tables", () => {
  test("a row is a place, a column a place below it; ? and - and < are kept as what they are", () => {
    expect(cells(entry("  grid cylinder.bore/mm head.thrust head.axial", "  1 98.012 ?", "  2: - <98.0"))).toEqual([
      "cylinder.bore[1/head.thrust] value 98.012",
      "cylinder.bore[1/head.axial] todo",
      "cylinder.bore[2/head.thrust] none",
      "cylinder.bore[2/head.axial] below 98.0",
    ]);
  });

  test("a wrong cell count is one finding and shifts nothing", () => {
    const block = entry(
      "  grid cylinder.bore/mm a b c",
      "  1 98.1 98.2",
      "  2 98.1 98.2 98.3 98.4",
      "  3 98.1 98.2 98.3",
    );
    expect(problems(block)).toEqual(["2:2-13 cell-count", "3:2-23 cell-count"]);
    expect(cells(block).filter((cell) => cell.includes("[3/"))).toEqual([
      "cylinder.bore[3/a] value 98.1",
      "cylinder.bore[3/b] value 98.2",
      "cylinder.bore[3/c] value 98.3",
    ]);
    expect(cells(block).filter((cell) => cell.includes("[1/"))).toEqual([
      "cylinder.bore[1/a] value 98.1",
      "cylinder.bore[1/b] value 98.2",
    ]);
  });

  test("a bad cell stays a cell: its neighbours keep their columns", () => {
    const block = entry("  grid cylinder.bore/mm a b c", "  1 98,031 abc 98.3");
    expect(cells(block)).toEqual(["cylinder.bore[1/a] bad", "cylinder.bore[1/b] bad", "cylinder.bore[1/c] value 98.3"]);
    expect(problems(block)).toEqual(["2:4-10 comma-number", "2:11-14 bad-cell"]);
  });

  test("rows under a broken heading raise nothing more", () => {
    const block = entry("  grid cylinder.bore mm a b", "  1 98.1 98.2", "  2 98.1 98.2");
    expect(block.problems).toHaveLength(1);
    expect(block.readings).toEqual([]);
    expect(block.unread).toEqual(["grid"]);
  });

  test("comments, empty lines and notes do not end a table; any other line does", () => {
    const block = entry(
      "  grid a.b/mm",
      "  # looked at twice",
      "",
      "  note still the table",
      "  1 2.0",
      "  air 20 C",
      "  2 2.0",
    );
    expect(cells(block)).toEqual(["a.b[1] value 2.0"]);
    expect(problems(block)).toEqual(["4:2-3 row-without-table"]);
  });

  test("a log counts across midnight, and a date line sets the day", () => {
    const run = (lines: string[]) =>
      summarise(["run R1 2026-04-11 job J1 by AB", ...lines], 0, lines.length + 1) as WorkBlock;
    const dated = run(["  log time crank.speed/rpm", "  23:59 800", "  date 2026-04-12", "  00:01 820"]);
    expect([...(dated.logs[0]?.time_s ?? [])]).toEqual([0, 120]);
    const plain = run(["  log elapsed/min cht[1..2]/C", "  0 20 21", "  1.5 22 ?"]);
    expect([...(plain.logs[0]?.time_s ?? [])]).toEqual([0, 90]);
    expect(plain.logs[0]?.columns.map((one) => one.place)).toEqual(["cht[1]", "cht[2]"]);
    expect(plain.logs[0]?.todo).toBe(1);
    expect(plain.logs[0]?.values[1]?.[1]).toBeNaN();
  });

  test("a cell of a log that cannot be kept as written is said, never dropped in silence", () => {
    const lines = [
      "run R1 2026-04-11 job J1 by AB",
      "  log time x/C y/C",
      "  10:00 \u20135 2",
      "  10:01 1234567890.1234567 -3",
    ];
    const block = summarise(lines, 0, lines.length) as WorkBlock;
    expect([...(block.logs[0]?.values[0] ?? [])]).toEqual([-5, Number.NaN]);
    expect([...(block.logs[0]?.values[1] ?? [])]).toEqual([2, -3]);
    expect(problems(block).map((one) => one.split(" ")[1])).toEqual(["odd-character", "bad-number"]);
  });

  test("a log takes lines until another member, and checks know how many rows stand above them", () => {
    const block = summarise(
      ["run R1 2026-04-11 job J1 by AB", "  check a ok", "  log time x/rpm", "  10:00 1", "  10:01 2", "  check b ok"],
      0,
      6,
    ) as WorkBlock;
    expect(block.checks.map((one) => one.afterRows)).toEqual([0, 2]);
  });
});

describe("values", () => {
  test("a nominal with its half width becomes exact ends", () => {
    const limits = summarise(
      ["limits T1 revision A from 2026-01-01", "  limit a.b 40.05 +/- 0.1 mm", "  limit c.d -0.5 +/- 0.25 mm"],
      0,
      3,
    );
    if (limits.kind !== "limits") throw new Error("not a limits block");
    expect(limits.limits.map((one) => [one.bare?.low?.text, one.bare?.high?.text])).toEqual([
      ["39.95", "40.15"],
      ["-0.75", "-0.25"],
    ]);
  });

  test("quotes are doubled inside text, and an unclosed one ends with the line", () => {
    const block = entry('  fit "3/8"" bolt" serial "S1"', '  defect D1 case "cracked', "  air 20 C");
    expect(block.fits[0]).toMatchObject({ part: '3/8" bolt', serial: "S1" });
    expect(block.defects[0]).toMatchObject({ name: "D1", about: "cracked" });
    expect(problems(block)).toEqual(["2:17-25 unclosed-quote"]);
    expect(block.air).toHaveLength(1);
  });

  test("odd characters are read as the plain ones they stand for, and named", () => {
    const block = entry(
      "  air 20\u00a0\u00b0C",
      "  torque a.nut 40 \u00b1 2 N.m",
      "  defect D1 case \u201ccracked\u201d",
    );
    expect(block.air[0]?.temperature?.text).toBe("20");
    expect(block.defects[0]?.about).toBe("cracked");
    expect(problems(block).filter((one) => one.endsWith("odd-character"))).toEqual([
      "1:8-9 odd-character",
      "1:9-10 odd-character",
      "2:18-19 odd-character",
      "3:17-18 odd-character",
      "3:25-26 odd-character",
    ]);
  });

  test.each([
    ["  measure a.b 98,031 mm", "comma-number"],
    ["  measure a.b 98.031", "missing-unit"],
    ["  measure a.b 98.031mm", "missing-blank"],
    ["  measure a.b 98.031 mmm", "unknown-unit"],
    ["  measure a.b .5 mm", "bad-number"],
    ["  measure a.b 1234567890.1234567 mm", "bad-number"],
    ["  measure a.b[1, 2] 1.0 mm", "bad-place"],
    ["  measure a.b[2..1] 1.0 mm", "bad-place"],
    ["  air 20 mm", "wrong-dimension"],
    ["  sign fitter AB 2026-02-30", "bad-date"],
    ["  mesure a.b 1.0 mm", "unknown-word"],
    ['  owner "x"', "wrong-block"],
    ["  check a ok with B1 with B2", "repeated-word"],
    ["  check a", "unexpected"],
  ])("%s is one finding: %s", (line, what) => {
    expect(entry(line, "  air 20 C").problems.map((one) => one.what)).toEqual([what]);
    expect(entry(line, "  air 20 C").air).toHaveLength(1);
  });

  test("a number of digits is text where a name is expected", () => {
    expect(summarise(["engine 0412 Curlew-9"], 0, 1)).toMatchObject({ name: "0412", type: "Curlew-9" });
  });

  test("an instrument holds for the lines below, until the next; a line's own goes first", () => {
    const block = entry(
      "  with A set on R",
      "  measure x.a 1.0 mm",
      "  measure x.b 1.0 mm with B",
      "  with C",
      "  measure x.c 1.0 mm",
    );
    expect(block.readings.map((one) => [one.instrument, one.standard])).toEqual([
      ["A", "R"],
      ["B", ""],
      ["C", ""],
    ]);
  });
});

describe("signs", () => {
  test("a line below the last sign is told; one between two signs is covered by the later", () => {
    expect(entry("  sign fitter A 2026-02-19", "  air 20 C").afterSign).toBe(2);
    expect(entry("  sign fitter A 2026-02-19", "  note late").afterSign).toBeGreaterThan(0);
    expect(entry("  sign fitter A 2026-02-19", "  air 20 C", "  sign inspector B 2026-02-20").afterSign).toBe(-1);
  });
});

describe("facts hold no positions", () => {
  const samples = join(import.meta.dirname, "../../samples");
  const files = [...recordsOf(join(samples, "clean")), ...recordsOf(join(samples, "faulty"))];

  test("formatting, comments, empty lines and notes change no fact but the digest of a seal's own notes", () => {
    const random = seeded(3);
    let compared = 0;
    for (const [path, text] of files) {
      const before = blocksOf(text);
      const lines: string[] = [];
      for (const line of formatLines(text.split("\n").map((one) => (random() < 0.5 ? `   ${one.trimStart()}` : one)))) {
        lines.push(line);
        if (random() < 0.2) lines.push("", "      # seen");
      }
      const after = blocksOf(lines.join("\n"));
      expect(after.length, path).toBe(before.length);
      for (const [i, block] of before.entries()) {
        // Columns of findings about spelling move with the layout; everything else must be the same.
        const plain = (one: Block | undefined) => ({
          ...one,
          problems: one?.problems.map(({ at, what, data }) => ({ at, what, data })),
        });
        expect(same(plain(block), plain(after[i])), `${path}: ${block.ref}`).toBe(true);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  test("a broken line takes no neighbour down: every other line's facts are the same", () => {
    const text = recordsOf(join(samples, "bench")).get("J26-021.gudgeon") ?? "";
    const lines = text.split("\n");
    const members = (blocks: Block[]): number =>
      blocks.reduce(
        (sum, block) =>
          sum +
          ("readings" in block
            ? block.readings.length + block.torques.length + block.checks.length + block.signs.length
            : 0),
        0,
      );
    const whole = members(blocksOf(text));
    for (const [i, line] of lines.entries()) {
      if (!/^ {2}(measure|torque|check|sign|air|photo|labour)\b/u.test(line)) continue;
      const broken = [...lines];
      broken[i] = line.replace(/^( {2}\w+)/u, "$1 %%");
      const own = members(blocksOf(lines.slice(0, i + 1).join("\n"))) - members(blocksOf(lines.slice(0, i).join("\n")));
      expect(members(blocksOf(broken.join("\n"))), `${i + 1}: ${line}`).toBe(whole - own);
    }
    expect(whole).toBeGreaterThan(50);
  });
});
