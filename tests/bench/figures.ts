/** Medians, spreads and the table that is printed. */

/** Sorted copy's value at a share of its length; 0.5 is the median. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) return Number.NaN;
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.ceil(at);
  return sorted[low] + (sorted[high] - sorted[low]) * (at - low);
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);

/** Ratios of runs that were made one after the other, so that a slow moment of the machine meets both. */
export function ratios(values: readonly number[], floors: readonly number[]): number[] {
  return values.map((value, i) => value / floors[i]);
}

/** A bound of the plan; a figure at most as great as it meets it. */
export interface Target {
  readonly first: number;
  readonly later?: number;
  readonly unit?: string;
}

export interface Row {
  readonly what: string;
  readonly figure: string;
  /** Least and greatest of the runs. */
  readonly spread: string;
  readonly ratio?: number;
  readonly target?: Target;
  /** What is held against the target: the ratio when left out. */
  readonly held?: number;
}

export function ms(value: number): string {
  return value >= 100 ? `${value.toFixed(0)} ms` : value >= 10 ? `${value.toFixed(1)} ms` : `${value.toFixed(2)} ms`;
}

/** A row of times in ms against floors taken in the same rounds. */
export function timed(what: string, values: readonly number[], floors?: readonly number[], target?: Target): Row {
  return {
    what,
    figure: ms(median(values)),
    spread: `${ms(Math.min(...values))}..${ms(Math.max(...values))}`,
    ...(floors ? { ratio: median(ratios(values, floors)) } : {}),
    ...(target ? { target } : {}),
  };
}

function verdict(row: Row): [string, string] {
  const { target } = row;
  const held = row.held ?? row.ratio;
  if (!target || held === undefined) return ["", ""];
  const unit = target.unit ?? "x";
  const asked = `${target.first}${unit}${target.later === undefined ? "" : `, later ${target.later}${unit}`}`;
  const met = held <= (target.later ?? target.first) ? "met" : held <= target.first ? "first met" : "NOT met";
  return [asked, met];
}

export function printTable(title: string, rows: readonly Row[]): void {
  const cells = rows.map((row) => [
    row.what,
    row.figure,
    row.spread,
    row.ratio === undefined ? "" : `${row.ratio.toFixed(2)}x`,
    ...verdict(row),
  ]);
  const head = ["what", "median", "least..greatest", "ratio", "target (at most)", "met"];
  const all = [head, ...cells];
  const widths = head.map((_, column) => Math.max(...all.map((line) => (line[column] ?? "").length)));
  const show = (line: readonly string[]): string =>
    `| ${widths.map((width, i) => (line[i] ?? "").padEnd(width)).join(" | ")} |`;
  console.log(`\n${title}\n`);
  console.log(show(head));
  console.log(`| ${widths.map((width) => "-".repeat(width)).join(" | ")} |`);
  for (const line of cells) console.log(show(line));
}
