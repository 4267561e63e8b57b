/**
 * Reads a data logger's file into a run table.
 *
 * Written for a million rows of twelve channels: bytes go straight into columns of figures, and no text is made except
 * for a cell that cannot be read. Nothing is dropped silently: bad cells and rows left out are counted, and named by row
 * up to a cap.
 */
import {
  cellText,
  clockSeconds,
  codes,
  dateTimeSeconds,
  parseDecimal,
  scaleDecimal,
  type TimeKind,
  timeKindOf,
} from "./csv-cells.ts";
import { answer, type Refused, type Result, refuse } from "./result.ts";
import type { RunTable } from "./run-tables.ts";

export interface CsvChannel {
  /** Heading in the file, without its quotes. */
  readonly header: string;
  /** Figure in the channel's unit = cell x scale + offset: 1 and 0 when left out. */
  readonly scale?: number;
  readonly offset?: number;
}

export interface CsvPlan {
  readonly time: {
    /** When left out the first column is the time, and the heading is the first line that holds a heading of a channel. */
    readonly header?: string;
    /** Found from the first row when left out. */
    readonly kind?: TimeKind;
    /** Seconds in one unit of an elapsed time: 1 when left out, 60 for minutes, 0.001 for milliseconds. */
    readonly scale_s?: number;
  };
  readonly channels: readonly CsvChannel[];
  /** Found from the heading when left out. */
  readonly separator?: "," | ";" | "\t";
  /** Comma only in files whose separator is another mark; a point when left out. */
  readonly decimal?: "." | ",";
  /** Words that mean a missing value ("NaN", "---"); an empty cell always does. */
  readonly missing?: readonly string[];
  /** True: a channel whose heading the file does not have is a column of NaN, named in `absent`; otherwise it refuses the file. */
  readonly absentAllowed?: boolean;
  /** More rows of data than this refuse the file; no limit when left out. */
  readonly mostRows?: number;
  /** How many bad cells and left-out rows are named; 1000 when left out. All are counted. */
  readonly keep?: number;
}

export interface BadCell {
  /** Row of data, 1 for the first after the heading, and line of the file, 1 for its first. */
  row: number;
  line: number;
  header: string;
  text: string;
  what: "not a number" | "no cell";
}

export interface LeftOutRow {
  row: number;
  line: number;
  text: string;
  why: "no readable time" | "time runs back";
}

export interface RunLogCsv {
  table: RunTable;
  /** All headings of the file, and those that no channel maps. */
  headers: string[];
  unmapped: string[];
  /** Headings that are mapped and that the file does not have. */
  absent: string[];
  /** Heading of the column that is read as the time. */
  timeHeader: string;
  timeKind: TimeKind;
  /** What the first row's time said: seconds of the day, seconds since 1970-01-01, or elapsed seconds. */
  first_s: number;
  /** Rows of data in the file, with those left out. */
  rows: number;
  /** Empty cells (or a word for missing) by channel. */
  missing: number[];
  /** Bad cells by channel, all of them; `badCells` names the first ones. */
  bad: number[];
  badCells: BadCell[];
  badCount: number;
  leftOut: LeftOutRow[];
  leftOutCount: number;
  /** Rows with more cells than the heading. */
  longRows: number;
  /** Rows of data at which a clock passed midnight. */
  midnightRows: number[];
}

const headingLines = 50;
const halfDay_s = 43_200;

interface Heading {
  headers: string[];
  separator: number;
  timeIndex: number;
  /** Channel of each column of the file: -1 none, -2 time. */
  target: Int32Array;
  absent: string[];
}

function splitHeading(bytes: Uint8Array, start: number, end: number, separator: number): string[] {
  const cells: string[] = [];
  let from = start;
  let quoted = false;
  for (let at = start; at <= end; at++) {
    if (at < end && bytes[at] === codes.quote) quoted = !quoted;
    if (at === end || (bytes[at] === separator && !quoted)) {
      cells.push(cellText(bytes, from, at));
      from = at + 1;
    }
  }
  return cells;
}

/** Reads a file that arrives in pieces: `push` each piece in order, then `end` once. */
export interface RunLogReader {
  push(piece: Uint8Array): void;
  end(): Result<RunLogCsv>;
}

/**
 * Opens a reader.
 * @param plan which headings are time and channels, and how the file is written
 * @returns a reader that gathers rows; a wrong plan or heading comes out of `end` as a refusal
 * Source: comma-separated files as RFC 4180 describes them, without line ends inside quotes.
 */
export function openRunLog(plan: CsvPlan): RunLogReader {
  const channels = plan.channels.length;
  const scale = Float64Array.from(plan.channels, (channel) => channel.scale ?? 1);
  const offset = Float64Array.from(plan.channels, (channel) => channel.offset ?? 0);
  const decimal = plan.decimal ?? ".";
  const decimalCode = decimal === "," ? codes.comma : codes.point;
  const missingWords = new Set(plan.missing ?? []);
  const keep = plan.keep ?? 1000;
  const timeScale = plan.time.scale_s ?? 1;

  const wantedHeading =
    plan.time.header !== undefined
      ? `"${plan.time.header}"`
      : plan.channels.length === 1
        ? `"${plan.channels[0].header}"`
        : `any of ${plan.channels.map((channel) => `"${channel.header}"`).join(", ")}`;

  let capacity = 256;
  let time = new Float64Array(capacity);
  let columns = plan.channels.map(() => new Float64Array(capacity));
  let kept = 0;
  let rows = 0;
  let line = 0;
  let heading: Heading | undefined;
  let refused: Refused | undefined;
  let firstHeadings: string[] = [];
  let timeKind: TimeKind | undefined = plan.time.kind;
  let last_s = Number.NaN;
  let lastClock_s = Number.NaN;
  let first_s = Number.NaN;
  const missing = new Array<number>(channels).fill(0);
  const bad = new Array<number>(channels).fill(0);
  const badCells: BadCell[] = [];
  let badCount = 0;
  const leftOut: LeftOutRow[] = [];
  let leftOutCount = 0;
  let longRows = 0;
  const midnightRows: number[] = [];
  let rest: Uint8Array = new Uint8Array(0);
  const seen = new Uint8Array(channels);
  const isAbsent = new Uint8Array(channels);

  if (
    scale.some((value) => !Number.isFinite(value) || value === 0) ||
    offset.some((value) => !Number.isFinite(value))
  ) {
    refused = refuse("A channel of the log is mapped with a scale that is no number, or zero.");
  } else if (!(timeScale > 0)) {
    refused = refuse("The time of the log is mapped with a scale that is not greater than zero.");
  }

  function grow(): void {
    capacity *= 2;
    const wider = (old: Float64Array) => {
      const next = new Float64Array(capacity);
      next.set(old);
      return next;
    };
    time = wider(time);
    columns = columns.map(wider);
  }

  function tryHeading(bytes: Uint8Array, start: number, end: number): void {
    const marks = plan.separator ? [plan.separator.charCodeAt(0)] : [codes.comma, codes.semicolon, codes.tab];
    for (const separator of marks) {
      const headers = splitHeading(bytes, start, end, separator);
      if (firstHeadings.length < headers.length) firstHeadings = headers;
      const timeIndex =
        plan.time.header !== undefined
          ? headers.indexOf(plan.time.header)
          : plan.channels.some((channel) => headers.includes(channel.header))
            ? 0
            : -1;
      if (timeIndex === -1) continue;
      const absent: string[] = [];
      const target = new Int32Array(headers.length).fill(-1);
      target[timeIndex] = -2;
      for (const [index, channel] of plan.channels.entries()) {
        const at = headers.indexOf(channel.header);
        if (at === -1 && plan.absentAllowed) {
          absent.push(channel.header);
          continue;
        }
        if (at === -1) {
          refused = refuse(
            `The log has no column "${channel.header}"; it has ${headers.map((name) => `"${name}"`).join(", ")}.`,
          );
          return;
        }
        if (target[at] === -2 && plan.time.header === undefined) {
          refused = refuse(
            `The first column "${channel.header}" of the log is mapped to a channel, and no other is named as the time.`,
          );
          return;
        }
        if (target[at] !== -1) {
          refused = refuse(`The column "${channel.header}" of the log is mapped twice.`);
          return;
        }
        if (headers.indexOf(channel.header, at + 1) !== -1) {
          refused = refuse(`The log has two columns "${channel.header}", so neither can be mapped by its name.`);
          return;
        }
        target[at] = index;
      }
      if (decimal === "," && separator === codes.comma) {
        refused = refuse("A comma cannot be both the separator and the decimal mark of a log.");
        return;
      }
      heading = { headers, separator, timeIndex, target, absent };
      for (const [index, channel] of plan.channels.entries()) if (absent.includes(channel.header)) isAbsent[index] = 1;
      return;
    }
    if (line >= headingLines) {
      refused = refuse(
        `No heading with ${wantedHeading} in the first ${headingLines} lines of the log; the longest has ${firstHeadings.map((name) => `"${name}"`).join(", ")}.`,
      );
    }
  }

  function noteBad(channel: number, text: string, what: BadCell["what"]): void {
    bad[channel]++;
    badCount++;
    if (badCells.length < keep) badCells.push({ row: rows, line, header: plan.channels[channel].header, text, what });
  }

  function noteLeftOut(text: string, why: LeftOutRow["why"]): void {
    leftOutCount++;
    if (leftOut.length < keep) leftOut.push({ row: rows, line, text, why });
  }

  /** Seconds of a time cell, NaN when it cannot be read. */
  function readTime(bytes: Uint8Array, start: number, end: number): number {
    let from = start;
    let until = end;
    if (until - from >= 2 && bytes[from] === codes.quote && bytes[until - 1] === codes.quote) {
      from++;
      until--;
    }
    timeKind ??= timeKindOf(cellText(bytes, from, until));
    if (timeKind === "clock") return clockSeconds(bytes, from, until);
    if (timeKind === "date-time") return dateTimeSeconds(bytes, from, until);
    return parseDecimal(cellText(bytes, from, until), decimal) * timeScale;
  }

  /** Slow reading of a cell that is not a plain decimal. Returns NaN and notes it when it is missing or bad. */
  function readOddCell(bytes: Uint8Array, start: number, end: number, channel: number): number {
    const text = cellText(bytes, start, end);
    if (text === "" || missingWords.has(text)) {
      missing[channel]++;
      return Number.NaN;
    }
    const value = parseDecimal(text, decimal);
    if (Number.isNaN(value)) noteBad(channel, text, "not a number");
    return value * scale[channel] + offset[channel];
  }

  /** End of a cell: the next separator outside quotes, or the end of the line. */
  function cellEnd(bytes: Uint8Array, start: number, end: number, separator: number): number {
    let quoted = false;
    for (let at = start; at < end; at++) {
      const code = bytes[at];
      if (code === codes.quote) quoted = !quoted;
      else if (code === separator && !quoted) return at;
    }
    return end;
  }

  function readRow(bytes: Uint8Array, start: number, end: number, head: Heading): void {
    const { separator, target } = head;
    if (kept === capacity) grow();
    rows++;
    let at = start;
    let cell = 0;
    let time_s = Number.NaN;
    let timeStart = start;
    let timeEnd = start;
    seen.fill(0);
    for (;;) {
      const wanted = cell < target.length ? target[cell] : -1;
      let stop = at;
      if (wanted >= 0 || (wanted === -2 && timeKind === "elapsed")) {
        // The usual cell: an optional minus, digits, perhaps a point and digits, then the separator.
        let digits = 0;
        let decimals = 0;
        let value = 0;
        const negative = bytes[at] === codes.minus;
        if (negative) stop++;
        let code = stop < end ? bytes[stop] : separator;
        while (code >= codes.zero && code <= codes.nine) {
          value = value * 10 + (code - codes.zero);
          digits++;
          stop++;
          code = stop < end ? bytes[stop] : separator;
        }
        if (code === decimalCode && digits > 0) {
          const pointAt = stop;
          stop++;
          code = stop < end ? bytes[stop] : separator;
          while (code >= codes.zero && code <= codes.nine) {
            value = value * 10 + (code - codes.zero);
            stop++;
            code = stop < end ? bytes[stop] : separator;
          }
          decimals = stop - pointAt - 1;
          digits += decimals;
        }
        const usual = code === separator && digits > 0 && digits <= 15;
        if (!usual) stop = cellEnd(bytes, at, end, separator);
        if (wanted === -2) {
          timeStart = at;
          timeEnd = stop;
          const plain = scaleDecimal(value, decimals) * timeScale;
          time_s = usual ? (negative ? -plain : plain) : readTime(bytes, at, stop);
        } else {
          const plain = scaleDecimal(value, decimals);
          columns[wanted][kept] = usual
            ? (negative ? -plain : plain) * scale[wanted] + offset[wanted]
            : readOddCell(bytes, at, stop, wanted);
          seen[wanted] = 1;
        }
      } else {
        stop = cellEnd(bytes, at, end, separator);
        if (wanted === -2) {
          timeStart = at;
          timeEnd = stop;
          time_s = readTime(bytes, at, stop);
        }
      }
      cell++;
      if (stop >= end) break;
      at = stop + 1;
    }
    if (cell > target.length) longRows++;
    for (let channel = 0; channel < channels; channel++) {
      if (seen[channel] === 1) continue;
      columns[channel][kept] = Number.NaN;
      if (isAbsent[channel] === 0) noteBad(channel, "", "no cell");
    }
    placeRow(bytes, start, end, time_s, timeStart, timeEnd);
  }

  /** Keeps the row when its time can be read and does not run back. */
  function placeRow(
    bytes: Uint8Array,
    start: number,
    end: number,
    time_s: number,
    timeStart: number,
    timeEnd: number,
  ): void {
    if (Number.isNaN(time_s)) {
      noteLeftOut(
        timeEnd > timeStart ? cellText(bytes, timeStart, timeEnd) : cellText(bytes, start, end),
        "no readable time",
      );
      return;
    }
    let onAxis_s = time_s;
    if (timeKind === "clock" && kept > 0) {
      // A clock alone does not say the day: the step is the shorter way round, so midnight is passed and a clock that
      // was set back is not taken for a run of a day.
      let step_s = time_s - lastClock_s;
      if (step_s < -halfDay_s) step_s += 2 * halfDay_s;
      else if (step_s > halfDay_s) step_s -= 2 * halfDay_s;
      onAxis_s = last_s + step_s;
      if (step_s >= 0 && time_s < lastClock_s) midnightRows.push(rows);
    }
    if (kept > 0 && onAxis_s < last_s) {
      noteLeftOut(cellText(bytes, timeStart, timeEnd), "time runs back");
      return;
    }
    if (kept === 0) first_s = time_s;
    last_s = onAxis_s;
    lastClock_s = time_s;
    time[kept] = onAxis_s - first_s;
    kept++;
  }

  function readLine(bytes: Uint8Array, start: number, end: number): void {
    line++;
    let stop = end;
    if (stop > start && bytes[stop - 1] === codes.cr) stop--;
    if (stop === start) return;
    if (heading) {
      readRow(bytes, start, stop, heading);
      if (plan.mostRows !== undefined && rows > plan.mostRows)
        refused = refuse(`The log has more than ${plan.mostRows} rows, and is not read.`);
      return;
    }
    let from = start;
    if (line === 1 && bytes[from] === 0xef && bytes[from + 1] === 0xbb && bytes[from + 2] === 0xbf) from += 3;
    tryHeading(bytes, from, stop);
  }

  return {
    push(piece) {
      if (refused) return;
      let bytes = piece;
      if (rest.length > 0) {
        bytes = new Uint8Array(rest.length + piece.length);
        bytes.set(rest);
        bytes.set(piece, rest.length);
      }
      let start = 0;
      for (;;) {
        const end = bytes.indexOf(codes.lf, start);
        if (end === -1) break;
        readLine(bytes, start, end);
        if (refused) return;
        start = end + 1;
      }
      // A copy, so that the caller may use its buffer again.
      rest = bytes.slice(start);
    },
    end() {
      if (!refused && rest.length > 0) readLine(rest, 0, rest.length);
      rest = new Uint8Array(0);
      if (refused) return refused;
      if (!heading) return refuse(`The log has no heading with ${wantedHeading}.`);
      if (kept === 0) return refuse(`The log has no row with a readable time (${rows} rows).`);
      const trimmed = (values: Float64Array) =>
        kept * 4 < values.length * 3 ? values.slice(0, kept) : values.subarray(0, kept);
      const mapped = heading.target;
      return answer({
        table: { time_s: trimmed(time), columns: columns.map(trimmed) },
        headers: heading.headers,
        unmapped: heading.headers.filter((_name, index) => mapped[index] === -1),
        absent: heading.absent,
        timeHeader: heading.headers[heading.timeIndex],
        timeKind: timeKind ?? "elapsed",
        first_s,
        rows,
        missing,
        bad,
        badCells,
        badCount,
        leftOut,
        leftOutCount,
        longRows,
        midnightRows,
      });
    },
  };
}

/**
 * Reads a whole file that is at hand as text.
 * @param text the file
 * @param plan as for `openRunLog`
 */
export function readRunLog(text: string, plan: CsvPlan): Result<RunLogCsv> {
  const reader = openRunLog(plan);
  const encoder = new TextEncoder();
  const pieceLength = 1 << 20;
  for (let start = 0; start < text.length; ) {
    // Pieces end with a line, so that no character is cut in two.
    const newline = text.indexOf("\n", start + pieceLength);
    const end = newline === -1 ? text.length : newline + 1;
    reader.push(encoder.encode(text.slice(start, end)));
    start = end;
  }
  return reader.end();
}
