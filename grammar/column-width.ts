const MARK = /[\p{M}\p{Cf}]/u;

/** Code points that terminals and editors draw two columns wide (East Asian wide and full-width, emoji), as ranges. */
const WIDE: readonly (readonly [from: number, to: number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0x9fff],
  [0xa000, 0xa4cf],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
];

function isWide(point: number): boolean {
  return point >= 0x1100 && WIDE.some(([from, to]) => point >= from && point <= to);
}

/**
 * How many columns a text takes in a fixed-width font: marks and joiners none, wide characters two, all others one.
 * @param enough counting stops once the width is past this, so that a very long word costs nothing
 * Source: the wide ranges are those of Unicode Standard Annex 11, blocks only, from memory.
 */
export function columnWidth(text: string, enough: number): number {
  let width = 0;
  for (const character of text) {
    const point = character.codePointAt(0) as number;
    if (point < 0x300) width += 1;
    else if (!MARK.test(character)) width += isWide(point) ? 2 : 1;
    if (width > enough) return width;
  }
  return width;
}
