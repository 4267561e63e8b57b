/**
 * Cylinders of an engine from its arrangement: numbers, rows and the direction in which each one points.
 */
import { show } from "./figures.ts";
import { answer, type Result, refuse } from "./result.ts";

export type Arrangement = "radial" | "inline" | "opposed" | "vee";

export interface Cylinder {
  readonly number: number;
  /** Row of a radial (1 is the rear row), throw along the shaft of the others (1 first). */
  readonly row: number;
  /** Bank of an opposed or vee engine as seen from the rear. */
  readonly bank: "left" | "right" | undefined;
  /** Direction from the shaft, degrees clockwise from straight up as seen from the rear, 0 up to but not including 360. */
  readonly angle_deg: number;
}

export interface EngineLayout {
  readonly arrangement: Arrangement;
  readonly rows: number;
  readonly cylinders: readonly Cylinder[];
  /** True where numbering by bank is not standardised and this project's assumption was used. */
  readonly numberingAssumed: boolean;
}

/** How the cylinders of an opposed or vee engine are numbered. */
export type BankNumbering =
  /** Odd numbers on the right bank, even on the left, from the rear. */
  | "odd-right"
  /** Odd numbers on the left bank, even on the right. */
  | "odd-left"
  /** First half on the right bank, second half on the left. */
  | "right-bank-first"
  /** First half on the left bank, second half on the right. */
  | "left-bank-first";

function radial(rows: number, perRow: number): Result<{ layout: EngineLayout }> {
  if (rows > 2) {
    return refuse(
      `A radial of ${rows} rows is numbered by row and letter in ways that differ; give its places one by one.`,
    );
  }
  if (perRow < 3) return refuse(`A radial row has at least three cylinders, not ${perRow}.`);
  if (perRow % 2 === 0) {
    return refuse(
      `A four-stroke radial row has an odd number of cylinders, or it cannot fire evenly; ${perRow} is even.`,
    );
  }
  const total = rows * perRow;
  const cylinders = Array.from({ length: total }, (_unused, index): Cylinder => {
    const number = index + 1;
    // With two rows the odd numbers are the rear row, and each front cylinder stands in the gap behind the propeller.
    return { number, row: rows === 1 || number % 2 === 1 ? 1 : 2, bank: undefined, angle_deg: (360 * index) / total };
  });
  return answer({ layout: { arrangement: "radial", rows, cylinders, numberingAssumed: false } });
}

function banked(
  arrangement: "opposed" | "vee",
  total: number,
  angle_deg: number,
  numbering: BankNumbering | undefined,
) {
  const rule = numbering ?? "odd-right";
  const half = total / 2;
  const cylinders = Array.from({ length: total }, (_unused, index): Cylinder => {
    const number = index + 1;
    const right =
      rule === "odd-right"
        ? number % 2 === 1
        : rule === "odd-left"
          ? number % 2 === 0
          : rule === "right-bank-first"
            ? number <= half
            : number > half;
    const byTurns = rule === "odd-right" || rule === "odd-left";
    const row = byTurns ? Math.floor(index / 2) + 1 : (index % half) + 1;
    return { number, row, bank: right ? "right" : "left", angle_deg: right ? angle_deg / 2 : 360 - angle_deg / 2 };
  });
  return answer({
    layout: { arrangement, rows: half, cylinders, numberingAssumed: numbering === undefined },
  });
}

/**
 * Cylinders of an arrangement.
 * @param arrangement radial, inline, opposed or vee
 * @param count the count as written: `9`, or `2x7` for two rows of seven
 * @param vee_deg angle between the banks of a vee, degrees, more than 0 and less than 180; only for a vee
 * @param numbering how opposed and vee engines are numbered; odd numbers on the right from the rear when left out, and
 *   then marked as assumed, because makers differ
 * @returns the layout, or a refusal in words
 * Source: radials clockwise from the rear with No. 1 on top, double rows odd in the rear row: aviation dictionary (two
 *   public copies, less their printed slip); opposed numbering is not standardised (same place).
 */
export function engineLayout(
  arrangement: Arrangement,
  count: string,
  vee_deg?: number,
  numbering?: BankNumbering,
): Result<{ layout: EngineLayout }> {
  const match = /^(?:([1-9]\d?)x)?([1-9]\d?)$/.exec(count);
  if (!match) return refuse(`"${count}" is no count of cylinders; write 9, or 2x7 for two rows of seven.`);
  const rows = match[1] === undefined ? 1 : Number(match[1]);
  const perRow = Number(match[2]);
  if (arrangement !== "vee" && vee_deg !== undefined)
    return refuse(`Only a vee has an angle between its banks, not ${arrangement}.`);
  if (arrangement === "radial") return radial(rows, perRow);
  if (rows !== 1) return refuse(`Only radials are written in rows; write the whole count for ${arrangement}.`);
  if (arrangement === "inline") {
    const cylinders = Array.from({ length: perRow }, (_unused, index): Cylinder => {
      return { number: index + 1, row: index + 1, bank: undefined, angle_deg: 0 };
    });
    return answer({ layout: { arrangement, rows: perRow, cylinders, numberingAssumed: false } });
  }
  if (perRow % 2 === 1) return refuse(`An engine with two banks has an even number of cylinders, not ${perRow}.`);
  if (arrangement === "opposed") return banked("opposed", perRow, 180, numbering);
  if (vee_deg === undefined) return refuse("A vee needs the angle between its banks.");
  if (!(vee_deg > 0 && vee_deg < 180))
    return refuse(`The angle between the banks of a vee is between 0 and 180 degrees, not ${show(vee_deg)}.`);
  return banked("vee", perRow, vee_deg, numbering);
}
