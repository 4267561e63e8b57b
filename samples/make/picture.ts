/**
 * Small invented pictures: a drawn stand-in for a workshop photograph, under 3 KB, the same bytes each time.
 * Format: Portable Network Graphics (W3C Recommendation), eight-bit palette, one zlib stream.
 */
import { createHash } from "node:crypto";
import { deflateSync } from "node:zlib";
import { seeded } from "./text.ts";

const CRC_TABLE = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = (c & 1) !== 0 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

function crc(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const byte of bytes) c = ((CRC_TABLE[(c ^ byte) & 0xff] ?? 0) ^ (c >>> 8)) >>> 0;
  return (c ^ 0xffffffff) >>> 0;
}

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc(body), body.length + 4);
  return out;
}

const WIDTH = 160;
const HEIGHT = 120;
/** Bench green, steel in four shades, oil, rust, chalk mark. */
const PALETTE = [
  [58, 74, 66],
  [98, 104, 108],
  [134, 140, 144],
  [172, 178, 182],
  [208, 212, 214],
  [40, 34, 28],
  [140, 78, 44],
  [236, 228, 190],
];

/** What is drawn: round parts on a bench, fins, a crack with a chalk ring. */
export type Motif = "engine" | "barrel" | "piston" | "gear" | "crack" | "plate" | "crate" | "plug";

/**
 * @param motif what the picture shows
 * @param seed varies position and grain
 * @returns the bytes of a PNG of 160 by 120 dots
 */
export function picture(motif: Motif, seed: number): Buffer {
  const random = seeded(seed * 7919 + motif.length);
  const dots = new Uint8Array(WIDTH * HEIGHT);
  const put = (x: number, y: number, colour: number): void => {
    if (x >= 0 && y >= 0 && x < WIDTH && y < HEIGHT) dots[Math.trunc(y) * WIDTH + Math.trunc(x)] = colour;
  };
  const disc = (cx: number, cy: number, r: number, colour: number): void => {
    for (let y = -r; y <= r; y++) for (let x = -r; x <= r; x++) if (x * x + y * y <= r * r) put(cx + x, cy + y, colour);
  };
  const box = (x0: number, y0: number, w: number, h: number, colour: number): void => {
    for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) put(x0 + x, y0 + y, colour);
  };
  const cx = 76 + Math.trunc(random() * 8);
  const cy = 56 + Math.trunc(random() * 8);
  if (motif === "engine") {
    for (let i = 0; i < 9; i++) {
      const a = (i * 2 * Math.PI) / 9 - Math.PI / 2;
      disc(cx + Math.cos(a) * 40, cy + Math.sin(a) * 40, 11, 2);
      disc(cx + Math.cos(a) * 40, cy + Math.sin(a) * 40, 6, 1);
    }
    disc(cx, cy, 27, 3);
    disc(cx, cy, 9, 1);
  } else if (motif === "barrel") {
    for (let i = 0; i < 14; i++) box(cx - 34, 18 + i * 5, 68, 3, i % 2 === 0 ? 2 : 3);
    box(cx - 26, 88, 52, 14, 4);
  } else if (motif === "piston") {
    disc(cx, cy, 42, 3);
    disc(cx, cy, 39, 2);
    for (let i = 0; i < 5; i++) box(cx - 30 + i * 13, cy - 4, 3, 34, 1);
  } else if (motif === "gear") {
    for (let i = 0; i < 28; i++) {
      const a = (i * 2 * Math.PI) / 28;
      disc(cx + Math.cos(a) * 44, cy + Math.sin(a) * 44, 4, 3);
    }
    disc(cx, cy, 42, 3);
    disc(cx, cy, 18, 1);
  } else if (motif === "crack") {
    box(cx - 56, cy - 30, 112, 60, 2);
    let y = cy - 12;
    for (let x = cx - 20; x < cx + 22; x++) {
      y += random() < 0.5 ? 1 : 0;
      put(x, y, 5);
      put(x, y + 1, 5);
    }
    for (let a = 0; a < 6.28; a += 0.02) put(cx + Math.cos(a) * 34, cy + Math.sin(a) * 26, 7);
  } else if (motif === "plate") {
    box(cx - 50, cy - 30, 100, 60, 4);
    for (let i = 0; i < 4; i++) box(cx - 40, cy - 20 + i * 12, 50 + Math.trunc(random() * 28), 4, 5);
  } else if (motif === "crate") {
    box(cx - 54, cy - 36, 108, 76, 6);
    for (let i = 0; i < 5; i++) box(cx - 54, cy - 36 + i * 16, 108, 2, 5);
  } else {
    disc(cx, cy, 30, 1);
    disc(cx, cy, 20, 4);
    for (let i = 0; i < 24; i++) put(cx - 16 + random() * 32, cy - 12 + random() * 24, 5);
  }
  const raw = Buffer.alloc((WIDTH + 1) * HEIGHT);
  for (let y = 0; y < HEIGHT; y++) {
    raw[y * (WIDTH + 1)] = 0;
    for (let x = 0; x < WIDTH; x++) raw[y * (WIDTH + 1) + 1 + x] = dots[y * WIDTH + x] ?? 0;
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(WIDTH, 0);
  head.writeUInt32BE(HEIGHT, 4);
  head[8] = 8;
  head[9] = 3;
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", head),
    chunk("PLTE", Buffer.from(PALETTE.flat())),
    chunk("IDAT", deflateSync(raw, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

/** `sha256:` and the digest of the bytes in hexadecimal, as a record pins a file. */
export function digestOf(bytes: Uint8Array): string {
  return `sha256:${createHash("sha256").update(bytes).digest("hex")}`;
}
