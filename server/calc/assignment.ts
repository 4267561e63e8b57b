import type { Result } from "./result.ts";
import { answer, refuse } from "./result.ts";

/** Costs of rows against columns; null forbids the pair. */
export type CostTable = readonly (readonly (number | null)[])[];

export interface Assignment {
  /** Column of each row, or -1 for a row left over where there are more rows than columns. */
  readonly columnOfRow: readonly number[];
  readonly total: number;
}

/** Rows that together fit too few columns: the reason why no complete assignment exists. */
export interface Blockade {
  /** Smallest such set that was found; taking any row out of it removes the reason. */
  readonly rows: readonly number[];
  /** All columns that these rows fit: fewer than the rows. */
  readonly columns: readonly number[];
}

function width(table: readonly (readonly unknown[])[]): number {
  return table[0]?.length ?? 0;
}

function refuseShape(table: readonly (readonly unknown[])[]): string | undefined {
  if (table.length === 0 || width(table) === 0) return "There is nothing to assign.";
  if (table.some((row) => row.length !== width(table))) return "The rows of the table differ in length.";
  return undefined;
}

function transpose<T>(table: readonly (readonly T[])[]): T[][] {
  return Array.from({ length: width(table) }, (_unused, column) => table.map((row) => row[column]));
}

/**
 * Shortest augmenting paths with potentials (Jonker and Volgenant): for each row in turn the cheapest way to give it a
 * column, moving rows already placed where that is cheaper. Rows must not outnumber columns.
 * @returns column of each row, or undefined when a row cannot be placed
 */
function placeRows(cost: CostTable): number[] | undefined {
  const rows = cost.length;
  const columns = width(cost);
  const rowPotential = new Float64Array(rows);
  const columnPotential = new Float64Array(columns);
  const rowOfColumn = new Int32Array(columns).fill(-1);
  const columnOfRow = new Int32Array(rows).fill(-1);
  for (let start = 0; start < rows; start += 1) {
    const shortest = new Float64Array(columns).fill(Number.POSITIVE_INFINITY);
    const cameFrom = new Int32Array(columns).fill(-1);
    const doneColumn = new Uint8Array(columns);
    const visitedRows: number[] = [];
    let row = start;
    let length = 0;
    let free = -1;
    while (free === -1) {
      visitedRows.push(row);
      const line = cost[row] ?? [];
      let next = -1;
      let best = Number.POSITIVE_INFINITY;
      for (let column = 0; column < columns; column += 1) {
        if (doneColumn[column] === 1) continue;
        const price = line[column];
        if (price !== null && price !== undefined) {
          const reach = length + price - rowPotential[row] - columnPotential[column];
          if (reach < shortest[column]) {
            shortest[column] = reach;
            cameFrom[column] = row;
          }
        }
        const reach = shortest[column];
        // Among equal ways a free column ends the search at once.
        if (reach < best || (reach === best && best < Number.POSITIVE_INFINITY && rowOfColumn[column] === -1)) {
          best = reach;
          next = column;
        }
      }
      if (next === -1) return undefined;
      length = best;
      doneColumn[next] = 1;
      if (rowOfColumn[next] === -1) free = next;
      else row = rowOfColumn[next];
    }
    rowPotential[start] += length;
    for (const visited of visitedRows) {
      if (visited === start) continue;
      rowPotential[visited] += length - shortest[columnOfRow[visited]];
    }
    for (let column = 0; column < columns; column += 1) {
      if (doneColumn[column] === 1) columnPotential[column] -= length - shortest[column];
    }
    let column = free;
    for (;;) {
      const from = cameFrom[column];
      rowOfColumn[column] = from;
      const previous = columnOfRow[from];
      columnOfRow[from] = column;
      if (from === start) break;
      column = previous;
    }
  }
  return [...columnOfRow];
}

/**
 * The assignment of least total cost, exact. Every row gets a column of its own; where rows outnumber columns, every
 * column gets a row and the rows left over stand at -1.
 * @param cost rectangular table of finite costs, null for a pair that must not be made
 * @returns refused for an empty or ragged table, a cost that is not finite, or when no complete assignment exists
 *   (findBlockade says why)
 * Source: R. Jonker, A. Volgenant, A shortest augmenting path algorithm, 1987; D. F. Crouse, 2016, for rectangular tables.
 */
export function leastCostAssignment(cost: CostTable): Result<Assignment> {
  const shape = refuseShape(cost);
  if (shape !== undefined) return refuse(shape);
  if (cost.some((row) => row.some((price) => price !== null && !Number.isFinite(price)))) {
    return refuse("A cost of the table is not a number; write null for a pair that must not be made.");
  }
  const tall = cost.length > width(cost);
  const placed = placeRows(tall ? transpose(cost) : cost);
  if (placed === undefined) return refuse("No complete assignment exists: some rows share too few columns.");
  let columnOfRow = placed;
  if (tall) {
    columnOfRow = new Array<number>(cost.length).fill(-1);
    for (const [column, row] of placed.entries()) columnOfRow[row] = column;
  }
  let total = 0;
  for (const [row, column] of columnOfRow.entries()) total += column === -1 ? 0 : (cost[row]?.[column] ?? 0);
  return answer({ columnOfRow, total });
}

/**
 * A matching of as many rows as possible to columns that they fit, by augmenting paths.
 * @param fits rectangular table; true where the pair may be made
 * @param start a matching to grow from (column of each row, -1 for none); only pairs that still fit are kept
 * @returns column of each row, -1 for a row that could not be matched
 */
export function greatestMatching(fits: readonly (readonly boolean[])[], start?: readonly number[]): number[] {
  const columns = width(fits);
  const rowOfColumn = new Array<number>(columns).fill(-1);
  const columnOfRow = fits.map((row, index) => {
    const column = start?.[index] ?? -1;
    if (column === -1 || row[column] !== true || rowOfColumn[column] !== -1) return -1;
    rowOfColumn[column] = index;
    return column;
  });
  const augment = (row: number, seen: Uint8Array): boolean => {
    for (let column = 0; column < columns; column += 1) {
      if (fits[row]?.[column] !== true || seen[column] === 1) continue;
      seen[column] = 1;
      const holder = rowOfColumn[column] ?? -1;
      if (holder === -1 || augment(holder, seen)) {
        rowOfColumn[column] = row;
        columnOfRow[row] = column;
        return true;
      }
    }
    return false;
  };
  for (let row = 0; row < fits.length; row += 1) {
    if (columnOfRow[row] === -1) augment(row, new Uint8Array(columns));
  }
  return columnOfRow;
}

function fittedBy(fits: readonly (readonly boolean[])[], rows: readonly number[]): number[] {
  return Array.from({ length: width(fits) }, (_unused, column) => column).filter((column) =>
    rows.some((row) => fits[row]?.[column] === true),
  );
}

/**
 * Why not every row can have a column: a set of rows that fit fewer columns than they are (Hall's condition).
 * @param fits rectangular table; true where the pair may be made
 * @returns a set from which no row can be spared, or undefined when every row can have a column
 * Source: P. Hall, On representatives of subsets, 1935.
 */
export function findBlockade(fits: readonly (readonly boolean[])[]): Blockade | undefined {
  const columnOfRow = greatestMatching(fits);
  const start = columnOfRow.indexOf(-1);
  if (start === -1) return undefined;
  const rowOfColumn = new Map<number, number>();
  for (const [row, column] of columnOfRow.entries()) if (column !== -1) rowOfColumn.set(column, row);
  // Rows reached from an unmatched row along alternating pairs: all their columns are held by rows of the same set.
  const reached = new Set([start]);
  const queue = [start];
  for (const row of queue) {
    for (const column of fittedBy(fits, [row])) {
      const holder = rowOfColumn.get(column);
      if (holder === undefined || reached.has(holder)) continue;
      reached.add(holder);
      queue.push(holder);
    }
  }
  let rows = [...reached].sort((a, b) => a - b);
  for (const row of [...rows]) {
    const fewer = rows.filter((other) => other !== row);
    if (fewer.length > 0 && fittedBy(fits, fewer).length < fewer.length) rows = fewer;
  }
  return { rows, columns: fittedBy(fits, rows) };
}
