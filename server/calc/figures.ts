/**
 * Figures as a reader sees them, and figures settled before they are compared with a limit.
 */

/**
 * Settles a figure that came out of binary arithmetic onto nine decimals, so that 98.031 - 97.889 is 0.142 and a
 * clearance equal to its limit counts as inside it. Nine decimals of a millimetre are far below any gauge, so no
 * measured difference is lost.
 * @param value any finite number below 1e21 in size
 */
export function settle(value: number): number {
  const settled = Number(value.toFixed(9));
  return settled === 0 ? 0 : settled;
}

/**
 * Writes a figure for a sentence: at most `digits` significant digits, no exponent, no needless zeros.
 * @param value any finite number
 * @param digits significant digits kept, 1 to 15
 */
export function show(value: number, digits = 6): string {
  if (!Number.isFinite(value)) return String(value);
  const rounded = Number(value.toPrecision(digits));
  if (rounded === 0) return "0";
  const text = String(rounded);
  const exponent = Number(text.split("e")[1] ?? 0);
  if (exponent > 0) return BigInt(rounded).toString();
  if (exponent < 0) return rounded.toFixed(Math.min(100, digits - 1 - exponent)).replace(/0+$/, "");
  return text;
}
