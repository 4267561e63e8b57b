import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type CsvPlan, openRunLog, readRunLog } from "../../server/calc/run-log-csv.ts";
import { figures } from "./check-values/check.ts";

const plan: CsvPlan = {
  time: { header: "t" },
  channels: [{ header: "rpm" }, { header: "head temp 1, deg F", scale: 1 / 1.8, offset: -32 / 1.8 }],
};
const read = (text: string, changes: Partial<CsvPlan> = {}) => figures(readRunLog(text, { ...plan, ...changes }));
const heading = 't,rpm,"head temp 1, deg F",note\n';

describe("reading a data logger's file", () => {
  test("maps columns by name and unit, and names what is not mapped", () => {
    const log = read(`${heading}0,800,212,a\n10.5,-1.25,32,b\n`);
    expect([...log.table.time_s]).toEqual([0, 10.5]);
    expect([...log.table.columns[0]]).toEqual([800, -1.25]);
    expect(log.table.columns[1][0]).toBeCloseTo(100, 9);
    expect(log.table.columns[1][1]).toBeCloseTo(0, 9);
    expect(log.headers).toEqual(["t", "rpm", "head temp 1, deg F", "note"]);
    expect(log.unmapped).toEqual(["note"]);
  });

  test("bad cells are named by row and line, empty ones counted, and no cell is shifted", () => {
    const log = read(`${heading}0,8o0,212,\n1,,212\n2,900\n3,900,212,x,y\n`);
    expect(log.badCells).toEqual([
      { row: 1, line: 2, header: "rpm", text: "8o0", what: "not a number" },
      { row: 3, line: 4, header: "head temp 1, deg F", text: "", what: "no cell" },
    ]);
    expect(log).toMatchObject({ badCount: 2, bad: [1, 1], missing: [1, 0], longRows: 1, rows: 4 });
    expect([...log.table.columns[0]]).toEqual([Number.NaN, Number.NaN, 900, 900]);
  });

  test("all bad cells are counted when only some are named", () => {
    const rows = Array.from({ length: 50 }, (_unused, row) => `${row},x,212`).join("\n");
    const log = read(`${heading}${rows}`, { keep: 3 });
    expect([log.badCells.length, log.badCount]).toEqual([3, 50]);
  });

  test("words for a missing value count as missing, others as bad", () => {
    const log = read(`${heading}0,---,212\n1,OVR,212\n`, { missing: ["---"] });
    expect(log).toMatchObject({ missing: [1, 0], bad: [1, 0] });
  });

  test("a clock crosses midnight once, and one set back is left out by name", () => {
    const log = read("t,rpm\n23:59:30,1\n23:59:59.5,2\n00:00:30,3\n00:00:10,4\n00:01,5\n", {
      channels: [{ header: "rpm" }],
    });
    expect(log.timeKind).toBe("clock");
    expect([...log.table.time_s]).toEqual([0, 29.5, 60, 90]);
    expect([...log.table.columns[0]]).toEqual([1, 2, 3, 5]);
    expect(log.midnightRows).toEqual([3]);
    expect(log.leftOut).toEqual([{ row: 4, line: 5, text: "00:00:10", why: "time runs back" }]);
  });

  test("a clock set back just after midnight is not a day later", () => {
    const log = read("t,rpm\n23:59:50,1\n00:00:05,2\n23:59:55,3\n00:00:10,4\n", { channels: [{ header: "rpm" }] });
    expect([...log.table.time_s]).toEqual([0, 15, 20]);
    expect(log.leftOutCount).toBe(1);
  });

  test("date and time, with a blank, a T or a Z; a day that does not exist is left out", () => {
    const log = read("t,rpm\n2026-02-28 23:59:59,1\n2026-03-01T00:00:01Z,2\n2026-02-30 10:00,3\n", {
      channels: [{ header: "rpm" }],
    });
    expect([...log.table.time_s]).toEqual([0, 2]);
    expect(log.leftOut[0]).toMatchObject({ row: 3, why: "no readable time" });
  });

  test("semicolons with decimal commas, a byte-order mark, CRLF, a preamble and a units row", () => {
    const text = "\ufeffLogger 7\r\nSerial;12\r\nt;rpm\r\ns;1/min\r\n0,5;800,25\r\n\r\n1,5;801\r\n";
    const log = read(text, { channels: [{ header: "rpm" }], decimal: "," });
    expect([...log.table.columns[0]]).toEqual([800.25, 801]);
    expect(log.first_s).toBe(0.5);
    expect(log.leftOut).toEqual([{ row: 1, line: 4, text: "s", why: "no readable time" }]);
  });

  test("elapsed time in other units", () => {
    const log = read("t\trpm\n0\t1\n1.5\t2\n", { channels: [{ header: "rpm" }], time: { header: "t", scale_s: 60 } });
    expect([...log.table.time_s]).toEqual([0, 90]);
  });

  test.each([
    ["no such column", "t,x\n0,1\n", {}],
    ["no time column", "time,rpm\n0,1\n", {}],
    ["two columns of one name", "t,rpm,rpm\n0,1,1\n", { channels: [{ header: "rpm" }] }],
    ["a column mapped twice", "t,rpm\n0,1\n", { channels: [{ header: "rpm" }, { header: "rpm" }] }],
    ["comma for both", "t,rpm\n0,1\n", { channels: [{ header: "rpm" }], decimal: "," }],
    ["no row", "t,rpm\n", { channels: [{ header: "rpm" }] }],
    ["no readable time at all", "t,rpm\nx,1\n", { channels: [{ header: "rpm" }] }],
    ["a scale of zero", "t,rpm\n0,1\n", { channels: [{ header: "rpm", scale: 0 }] }],
    ["an empty file", "", {}],
  ] as const)("refuses: %s", (_name, text, changes) => {
    expect(readRunLog(text, { ...plan, ...changes })).toMatchObject({
      ok: false,
      refused: expect.stringMatching(/\.$/),
    });
  });

  test("pieces of any size give the same as the whole, and numbers equal the language's own", () => {
    const number = fc.oneof(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((value) => String(value)),
      fc.integer({ min: -99999, max: 99999 }).map((value) => (value / 100).toFixed(2)),
      fc.constantFrom("1e3", "+5", ".5", "5.", "-0", "1.7976931348623157e308", "123456789012345678", '"7.5"', " 8 "),
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number, number), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 1, max: 50 }),
        (rows, size) => {
          const text = `t,a,b\n${rows.map(([a, b], row) => `${row},${a},${b}`).join("\n")}\n`;
          const simple: CsvPlan = { time: { header: "t" }, channels: [{ header: "a" }, { header: "b" }] };
          const whole = figures(readRunLog(text, simple));
          const reader = openRunLog(simple);
          const bytes = new TextEncoder().encode(text);
          for (let at = 0; at < bytes.length; at += size) reader.push(bytes.subarray(at, at + size));
          expect(figures(reader.end())).toEqual(whole);
          const plain = (cell: string) => Number(cell.replaceAll('"', "")) + 0;
          expect([...whole.table.columns[0]]).toEqual(rows.map(([a]) => plain(a)));
          expect([...whole.table.columns[1]]).toEqual(rows.map(([, b]) => plain(b)));
        },
      ),
      { numRuns: 200 },
    );
  });

  test("the caller may use one buffer for all pieces", () => {
    const text = "t,rpm\n0,801\n1,802\n2,803\n";
    const reader = openRunLog({ time: { header: "t" }, channels: [{ header: "rpm" }] });
    const buffer = new Uint8Array(5);
    const bytes = new TextEncoder().encode(text);
    for (let at = 0; at < bytes.length; at += buffer.length) {
      const piece = bytes.subarray(at, at + buffer.length);
      buffer.set(piece);
      reader.push(buffer.subarray(0, piece.length));
    }
    expect([...figures(reader.end()).table.columns[0]]).toEqual([801, 802, 803]);
  });

  test("any garbage is an answer or a refusal, never a crash, and every row is accounted for", () => {
    const cell = fc.constantFrom(
      "1",
      "",
      "x",
      '"',
      '"a,b"',
      "1,2",
      "2026-01-01",
      "10:00",
      "-",
      "é",
      "1e",
      "--1",
      "0x10",
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { maxLength: 20 }), (rows) => {
        const text = `t,rpm\n${rows.map((row) => row.join(",")).join("\n")}`;
        const result = readRunLog(text, { time: { header: "t" }, channels: [{ header: "rpm" }] });
        if (!result.ok) return;
        expect(result.table.time_s.length + result.leftOutCount).toBe(result.rows);
        for (let row = 1; row < result.table.time_s.length; row++) {
          expect(result.table.time_s[row]).toBeGreaterThanOrEqual(result.table.time_s[row - 1]);
        }
      }),
      { numRuns: 300 },
    );
  });

  test("grows past its first size", () => {
    const rows = 20_000;
    const log = read(`t,rpm\n${Array.from({ length: rows }, (_unused, row) => `${row},${row * 2}`).join("\n")}`, {
      channels: [{ header: "rpm" }],
    });
    expect(log.table.time_s.length).toBe(rows);
    expect(log.table.columns[0][rows - 1]).toBe(2 * (rows - 1));
  });
});
