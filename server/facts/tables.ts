/**
 * Rows of tables: grids of readings, logs of runs, compressions. A row belongs to the nearest table heading above; any other member ends the
 * table, a comment or an empty line does not. A wrong cell count is a finding and never shifts cells.
 */
import { scanned, T, typeName } from "../../grammar/tokens.ts";
import { parseTime } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import { parseDecimalAt } from "../quantity/decimal.ts";
import { findUnit, nearestUnits, type Unit } from "../quantity/units.ts";
import type { Cursor } from "./cursor.ts";
import { parsePlace, pathsOf, placeText } from "./place.ts";
import type { At, CompressionRow, CompressionTable, LogColumn, LogMap, Reading, RunLog } from "./types.ts";

export interface Held {
  readonly instrument: string;
  readonly standard: string;
  /** The `with` line. */
  readonly at: At;
}

export interface GridTable {
  readonly kind: "grid";
  readonly feature: string;
  readonly prefix: string;
  readonly unit: Unit | undefined;
  readonly columns: readonly string[];
  readonly instrument: string;
  readonly namedAt: At;
  readonly standard: string;
  readonly size: Measure | undefined;
  readonly state: "" | "hot" | "cold";
  readonly by: string;
}

export interface LogTable {
  readonly kind: "log";
  readonly at: At;
  readonly columns: LogColumn[];
  /** Cells a row must have. */
  readonly cells: number;
  readonly elapsed: boolean;
  readonly elapsedFactor: number;
  readonly time: number[];
  readonly rows: number[];
  readonly values: number[][];
  /** Whole days passed since the first row. */
  days: number;
  last: number;
  startsAt: number | undefined;
  todo: number;
}

export interface CompressionDraft {
  readonly kind: "compression";
  readonly table: Omit<CompressionTable, "rows">;
  readonly unit: Unit | undefined;
  readonly rows: CompressionRow[];
}

export type Table = GridTable | LogTable | CompressionDraft | { readonly kind: "broken" };

/** A column heading `feature[..]/unit`. */
function readColumn(cursor: Cursor, token: number): { text: string; unit: Unit | undefined; unitText: string } {
  const image = cursor.image(token);
  const bracket = image.indexOf("]");
  const slash = image.indexOf("/", Math.max(bracket, 0));
  const unitText = image.slice(slash + 1).replaceAll("\u00b0", "");
  const unit = findUnit(unitText);
  if (!unit) {
    const from = scanned.starts[token] + slash + 1;
    cursor.problem("unknown-unit", from, scanned.ends[token], unitText, ...nearestUnits(unitText).slice(0, 3));
  }
  return { text: image.slice(0, slash), unit, unitText };
}

export function openGrid(cursor: Cursor, held: Held): GridTable {
  const head = cursor.field("head");
  const column = head ? readColumn(cursor, head.from) : { text: "", unit: undefined, unitText: "" };
  const place = parsePlace(column.text);
  if (!place && head) cursor.problemAt("bad-place", head.from, head.to, column.text);
  const columns: string[] = [];
  for (const field of cursor.all("cell")) {
    const image = cursor.image(field.from);
    // A column word with brackets stands for one column each: `level[1..3]`.
    const many = image.includes("[") ? parsePlace(image) : undefined;
    if (many) for (const path of pathsOf(many)) columns.push(`${many.feature}.${path}`);
    else columns.push(image);
  }
  const state = cursor.word("state");
  return {
    kind: "grid",
    feature: place?.feature ?? "",
    prefix: place && place.levels.length > 0 ? (pathsOf(place)[0] ?? "") : "",
    unit: column.unit,
    columns,
    instrument: cursor.has("with") ? cursor.word("with") : held.instrument,
    namedAt: cursor.has("with") ? cursor.at : held.at,
    standard: cursor.has("standard") ? cursor.word("standard") : cursor.has("with") ? "" : held.standard,
    size: cursor.q("size"),
    state: state === "hot" || state === "cold" ? state : "",
    by: cursor.word("by"),
  };
}

export function openLog(cursor: Cursor): LogTable {
  const columns: LogColumn[] = [];
  let heading = 0;
  let elapsedFactor = 1;
  const elapsed = cursor.field("elapsed");
  if (elapsed) {
    const column = readColumn(cursor, elapsed.from);
    if (column.unit?.dimension === "time") elapsedFactor = column.unit.factorNumber;
    else if (column.unit)
      cursor.problemAt("wrong-dimension", elapsed.from, elapsed.to, column.unitText, column.unit.dimension, "time");
  }
  for (const field of cursor.all("column")) {
    const { text, unit, unitText } = readColumn(cursor, field.from);
    const place = parsePlace(text);
    if (!place) cursor.problemAt("bad-place", field.from, field.to, text);
    else
      for (const path of pathsOf(place))
        columns.push({ place: placeText(place.feature, path), feature: place.feature, path, unit, unitText, heading });
    heading++;
  }
  return {
    kind: "log",
    at: cursor.at,
    columns,
    cells: columns.length,
    elapsed: elapsed !== undefined,
    elapsedFactor,
    time: [],
    rows: [],
    values: columns.map(() => []),
    days: 0,
    last: Number.NaN,
    startsAt: undefined,
    todo: 0,
  };
}

/** A `map` line: one column of a logger's file, as one channel or as the time. */
export function readLogMap(cursor: Cursor): LogMap {
  const map = { at: cursor.at, heading: cursor.quoted("heading"), column: undefined, unit: undefined };
  const field = cursor.field("column");
  if (!field) return { ...map, kind: "time" };
  const { text, unit, unitText } = readColumn(cursor, field.from);
  if (text === "elapsed") {
    if (unit && unit.dimension !== "time")
      cursor.problemAt("wrong-dimension", field.from, field.to, unitText, unit.dimension, "time");
    return { ...map, kind: "elapsed", unit: unit?.dimension === "time" ? unit : undefined };
  }
  const place = parsePlace(text);
  const paths = place ? pathsOf(place) : [];
  const path = paths[0];
  // One column of the file is one channel: `cht[1..9]` would name nine.
  if (!place || path === undefined || paths.length > 1) {
    cursor.problemAt("bad-place", field.from, field.to, text);
    return { ...map, kind: "channel" };
  }
  const named = placeText(place.feature, path);
  return {
    ...map,
    kind: "channel",
    column: { place: named, feature: place.feature, path, unit, unitText, heading: 0, mappedAt: cursor.at },
  };
}

export function openCompression(cursor: Cursor, held: Held): CompressionDraft {
  const state = cursor.word("state");
  const supply = cursor.q("supply", "pressure");
  const named = cursor.field("unit");
  const unit = named ? cursor.unit(named.from) : supply?.unit;
  return {
    kind: "compression",
    table: {
      at: cursor.at,
      method: cursor.word("method") === "direct" ? "direct" : "differential",
      supply,
      orifice: cursor.q("orifice", "length"),
      state: state === "hot" || state === "warm" || state === "cold" ? state : "",
      instrument: cursor.has("with") ? cursor.word("with") : held.instrument,
    },
    unit,
    rows: [],
  };
}

/** A number of a log, in place: a log may have a million. Only unusual ones (long, or with odd characters) take the way that can report them. */
function logNumber(cursor: Cursor, token: number): number {
  const [from, to] = [scanned.starts[token], scanned.ends[token]];
  if (scanned.odd || to - from > 15) return cursor.numberAt(token)?.value ?? Number.NaN;
  return parseDecimalAt(cursor.text, from, to);
}

type Cell = { readonly result: Reading["result"]; readonly value: number; readonly text: string };

function readCell(cursor: Cursor, token: number, column: string): Cell {
  switch (scanned.types[token]) {
    case T.Number: {
      const read = cursor.numberAt(token);
      return read ? { result: "value", ...read } : { result: "bad", value: Number.NaN, text: cursor.image(token) };
    }
    case T.Dash:
      return { result: "none", value: Number.NaN, text: "-" };
    case T.Query:
      return { result: "todo", value: Number.NaN, text: "?" };
    case T.Below: {
      const text = cursor.image(token).slice(1);
      return { result: "below", value: Number(text), text };
    }
    default: {
      const image = cursor.image(token);
      const word = typeName(scanned.types[token]);
      if (word === "go" || word === "no-go") return { result: word, value: Number.NaN, text: image };
      if (scanned.types[token] === T.CommaNumber) cursor.problemAt("comma-number", token, token + 1, image);
      else if (/^[+-]?\d+(\.\d+)?[\p{L}%]/u.test(image)) cursor.problemAt("missing-blank", token, token + 1, image);
      else cursor.problemAt("bad-cell", token, token + 1, image, column);
      return { result: "bad", value: Number.NaN, text: image };
    }
  }
}

/** How many cells the row has, and a finding when it is another number than the heading's. */
function countCells(cursor: Cursor, expected: number): number {
  const { fields } = cursor.plan;
  let cells = 0;
  for (let i = 1; i < fields.length && fields[i]?.role === "cell"; i++) cells++;
  if (cells !== expected)
    cursor.problem("cell-count", scanned.starts[0], scanned.ends[scanned.count - 1], String(cells), String(expected));
  return cells;
}

function label(cursor: Cursor): string {
  const image = cursor.image(0);
  return image.endsWith(":") ? image.slice(0, -1) : image;
}

export function gridRow(cursor: Cursor, table: GridTable, into: Reading[]): void {
  const wanted = Math.max(1, table.columns.length);
  const cells = countCells(cursor, wanted);
  if (table.feature === "") return;
  const row = table.prefix === "" ? label(cursor) : `${table.prefix}/${label(cursor)}`;
  for (let i = 0; i < cells && i < wanted; i++) {
    const column = table.columns[i];
    const cell = readCell(cursor, i + 1, column ?? table.feature);
    const measured = (cell.result === "value" || cell.result === "below") && table.unit !== undefined;
    into.push({
      at: cursor.at,
      feature: table.feature,
      path: column === undefined ? row : `${row}/${column}`,
      result: cell.result,
      measure: measured ? { value: cell.value, text: cell.text, unit: table.unit } : undefined,
      cell: i,
      instrument: table.instrument,
      namedAt: table.namedAt,
      standard: table.standard,
      size: table.size,
      state: table.state,
      by: table.by,
    });
  }
}

export function logRow(cursor: Cursor, table: LogTable): void {
  const cells = countCells(cursor, table.cells);
  let time: number;
  if (table.elapsed) time = scanned.types[0] === T.Number ? logNumber(cursor, 0) * table.elapsedFactor : Number.NaN;
  else if (scanned.types[0] === T.Time) {
    const clock = parseTime(cursor.image(0)) ?? Number.NaN;
    table.startsAt ??= clock;
    time = clock + table.days * 86_400 - table.startsAt;
  } else time = Number.NaN;
  if (Number.isNaN(time)) cursor.problemAt("bad-cell", 0, 1, cursor.image(0), table.elapsed ? "elapsed time" : "time");
  table.time.push(time);
  table.rows.push(cursor.at);
  if (!Number.isNaN(time)) table.last = time;
  for (let i = 0; i < table.cells; i++) {
    const token = i + 1;
    let value = Number.NaN;
    if (i < cells) {
      if (scanned.types[token] === T.Number) {
        value = logNumber(cursor, token);
      } else {
        const cell = readCell(cursor, token, table.columns[i]?.place ?? "");
        if (cell.result === "todo") table.todo++;
      }
    }
    table.values[i].push(value);
  }
}

export function compressionRow(cursor: Cursor, table: CompressionDraft): void {
  const cells = countCells(cursor, 1);
  const cell: Cell = cells > 0 ? readCell(cursor, 1, "compression") : { result: "bad", value: Number.NaN, text: "" };
  const measure =
    cell.result === "value" && table.unit ? { value: cell.value, text: cell.text, unit: table.unit } : undefined;
  table.rows.push({
    at: cursor.at,
    cylinder: label(cursor),
    result: cell.result,
    measure,
    heard: cursor.words("where"),
  });
}

export function closeLog(table: LogTable): RunLog {
  return {
    at: table.at,
    columns: table.columns,
    time_s: Float64Array.from(table.time),
    values: table.values.map((column) => Float64Array.from(column)),
    rows: Int32Array.from(table.rows),
    startsAt: table.startsAt,
    todo: table.todo,
  };
}
