/**
 * When a channel (oil temperature, as a rule) has settled.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse, refuseNotPositive, type Worked } from "./result.ts";
import { type RunTable, refuseTable, usualGap_s } from "./run-tables.ts";

export interface Settled extends Worked {
  /** Start of the first stretch that holds; NaN when the channel never settled. */
  settled_s: number;
  /** Lowest and highest value of that stretch. */
  lowest: number;
  highest: number;
}

/**
 * The first moment from which a channel stays within a band for a time. The band has no fixed middle: highest less
 * lowest of the stretch may not be more than `band`.
 * @param table the run
 * @param column index of the channel
 * @param band greatest difference inside the stretch, unit of the channel
 * @param hold_s time for which it must hold, s
 * @param options.while rows count only while this channel is inside its range; leaving the range begins anew
 * Source: common practice, no source; band and time come from the shop or the maker.
 */
export function settling(
  table: RunTable,
  column: number,
  band: number,
  hold_s: number,
  options: { while?: { column: number; from: number; until: number } } = {},
): Result<Settled> {
  const gate = options.while;
  const bad =
    refuseTable(table, gate ? [column, gate.column] : [column]) ?? refuseNotPositive({ band, "holding time": hold_s });
  if (bad) return bad;
  const { time_s } = table;
  const rows = time_s.length;
  if (rows < 2) return refuse("Settling needs at least two samples.");
  const values = table.columns[column];
  const gateValues = gate ? table.columns[gate.column] : undefined;
  const gap_s = usualGap_s(table);
  // Rows of possible highest and lowest values of the window, best first; each row enters and leaves each list once.
  const highs = new Int32Array(rows);
  const lows = new Int32Array(rows);
  let highFirst = 0;
  let highEnd = 0;
  let lowFirst = 0;
  let lowEnd = 0;
  let start = 0;
  let lastRow = -1;
  for (let row = 0; row < rows; row++) {
    const value = values[row];
    const shut =
      gate !== undefined &&
      gateValues !== undefined &&
      !(gateValues[row] >= gate.from && gateValues[row] <= gate.until);
    if (shut || Number.isNaN(value)) {
      // A missing cell is stepped over; leaving the condition begins anew.
      if (shut) lastRow = -1;
      continue;
    }
    if (lastRow === -1 || time_s[row] - time_s[lastRow] > gap_s) {
      highFirst = highEnd = lowFirst = lowEnd = 0;
      start = row;
    }
    lastRow = row;
    while (highEnd > highFirst && values[highs[highEnd - 1]] <= value) highEnd--;
    highs[highEnd++] = row;
    while (lowEnd > lowFirst && values[lows[lowEnd - 1]] >= value) lowEnd--;
    lows[lowEnd++] = row;
    while (values[highs[highFirst]] - values[lows[lowFirst]] > band + 1e-9) {
      // Drop the older of the two extremes; the stretch begins after it.
      if (highs[highFirst] < lows[lowFirst]) start = highs[highFirst++] + 1;
      else start = lows[lowFirst++] + 1;
    }
    while (Number.isNaN(values[start])) start++;
    if (time_s[row] - time_s[start] >= hold_s) {
      const highest = values[highs[highFirst]];
      const lowest = values[lows[lowFirst]];
      return answer({
        settled_s: time_s[start],
        lowest,
        highest,
        steps: [
          `From ${show(time_s[start], 6)} s on, for ${show(time_s[row] - time_s[start], 6)} s, between ${show(lowest, 5)} and ${show(highest, 5)}: within ${show(band)}.`,
        ],
      });
    }
  }
  return answer({
    settled_s: Number.NaN,
    lowest: Number.NaN,
    highest: Number.NaN,
    steps: [`The channel never stayed within ${show(band)} for ${show(hold_s)} s.`],
  });
}
