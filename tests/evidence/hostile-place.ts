// A shop's folder with everything in it that somebody might leave there to be read or written through.

import { spawnSync } from "node:child_process";
import { mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { temporaryFolder } from "./keys.ts";

export interface HostilePlace {
  /** Around both. */
  readonly path: string;
  /** The shop. */
  readonly root: string;
  /** Beside the shop: nothing in it may be read or changed. */
  readonly outside: string;
  remove(): void;
}

export function makeHostilePlace(): HostilePlace {
  const place = temporaryFolder();
  const root = join(place.path, "shop");
  const outside = join(place.path, "outside");
  mkdirSync(join(root, "seals"), { recursive: true });
  mkdirSync(outside);
  writeFileSync(join(outside, "secret.png"), "secret");
  writeFileSync(join(outside, "secret.gudgeon"), "secret");
  writeFileSync(join(root, "job.gudgeon"), "job J1 engine E1\n");
  symlinkSync(outside, join(root, "away"));
  symlinkSync(join(outside, "secret.png"), join(root, "link.png"));
  symlinkSync(join(outside, "secret.gudgeon"), join(root, "link.gudgeon"));
  symlinkSync(root, join(root, "loop"));
  symlinkSync("/dev/zero", join(root, "seals/zero.sig"));
  symlinkSync(join(place.path, "nowhere"), join(root, "seals/dangling.sig"));
  mkdirSync(join(root, "seals/folder.sig"));
  writeFileSync(join(root, "seals/long.sig"), "A".repeat(100_000));
  spawnSync("sh", ["-c", 'mkfifo "$0"', join(root, "seals/pipe.sig")]);
  return { path: place.path, root, outside, remove: () => place.remove() };
}
