// Holds a tree of sources to the table of rooms. Every complaint names the file, the line, what it did and the row of
// the table that it broke.

import { posix } from "node:path";
import { browserEntries, impureGlobals, impureMembers, type Room, rooms } from "./rooms.ts";
import { type Import, readSource, type Source } from "./source.ts";
import type { Tree } from "./tree.ts";

const isSource = (path: string): boolean => /\.(ts|mts|cts|mjs|cjs|js)$/.test(path);

/** Product code: everything but tests, samples and what tools read at the top level. */
const isProduct = (path: string): boolean => isSource(path) && /^(grammar|server|client)\//.test(path);

const roomOf = (path: string): Room | undefined => rooms.find((room) => room.files.test(path));

function row(room: Room): string {
  const part = (title: string, names: readonly string[] | undefined): string =>
    names === undefined || names.length === 0 ? "" : `; ${title}: ${names.join(", ")}`;
  return `[row ${room.name}: may import ${room.values.join(", ") || "no other room"}${part("types of", room.types)}${part("packages", room.packages)}]`;
}

function allowsPackage(room: Room, target: string): boolean {
  return room.packages.some((name) => {
    if (name === "node:*") return target.startsWith("node:");
    return target === name || target.startsWith(`${name}/`);
  });
}

/** Files and folders that stand side by side in a room: `server/features/hover.ts` and `server/features/actions/`. */
const unitOf = (path: string): string => (path.split("/")[2] ?? path).replace(/\.ts$/, "");

function checkImport(path: string, room: Room, item: Import): string | undefined {
  const complain = (what: string, ofRoom = room): string => `${path}:${item.line} ${what}\n    ${row(ofRoom)}`;
  if (!item.target.startsWith(".")) {
    return allowsPackage(room, item.target) ? undefined : complain(`imports the package ${item.target}`);
  }
  const target = posix.normalize(posix.join(posix.dirname(path), item.target));
  if (!isSource(target)) {
    // Data files (a generated grammar, a page) belong to the room that they lie in.
    const owner = roomOf(target);
    return owner === room || (owner && room.values.includes(owner.name))
      ? undefined
      : complain(`imports ${target}, which is not in a room it may import`);
  }
  const other = roomOf(target);
  if (other === undefined) return complain(`imports ${target}, which is in no room of the table`);
  if (other !== room) {
    if (room.values.includes(other.name)) return undefined;
    if (room.types?.includes(other.name)) {
      return item.typeOnly ? undefined : complain(`imports a value from ${target}; from that room only types may come`);
    }
    return complain(`imports ${target} of the room ${other.name}`);
  }
  if (room.siblings === "none") return complain(`imports ${target}: files of this room never import each other`);
  if (room.siblings === "unit" && unitOf(path) !== unitOf(target)) {
    return complain(`imports ${target}: one ${room.name.replace(/s$/, "")} never imports another`);
  }
  return undefined;
}

function checkPurity(path: string, room: Room, source: Source): string[] {
  const found: string[] = [];
  if (room.pure) {
    for (const name of impureGlobals) {
      const line = source.globals.get(name);
      if (line !== undefined) found.push(`${path}:${line} uses ${name} in a pure room\n    ${row(room)}`);
    }
    for (const [object, member] of impureMembers) {
      const line = source.members.get(`${object}.${member}`);
      if (line !== undefined) found.push(`${path}:${line} uses ${object}.${member} in a pure room\n    ${row(room)}`);
    }
  }
  const line = source.asynchronous[0];
  if (room.synchronous && line !== undefined) {
    found.push(`${path}:${line} is asynchronous, and rules are synchronous\n    ${row(room)}`);
  }
  return found;
}

/** Follows value imports from a browser entry and complains about each path that ends in Node. */
function checkBrowserReach(entry: string, sources: ReadonlyMap<string, Source>): string[] {
  const found: string[] = [];
  const cameFrom = new Map<string, string | undefined>([[entry, undefined]]);
  const trail = (path: string): string => {
    const steps: string[] = [];
    for (let at: string | undefined = path; at !== undefined; at = cameFrom.get(at)) steps.unshift(at);
    return steps.join(" -> ");
  };
  for (const path of cameFrom.keys()) {
    for (const item of sources.get(path)?.imports ?? []) {
      if (item.typeOnly) continue;
      if (item.target.startsWith("node:") || /\/node(\.js)?$/.test(item.target)) {
        found.push(`${trail(path)} -> ${item.target}: runs in a browser worker, where there is no Node`);
      } else if (item.target.startsWith(".")) {
        const target = posix.normalize(posix.join(posix.dirname(path), item.target));
        if (!cameFrom.has(target)) cameFrom.set(target, path);
      }
    }
  }
  return found;
}

/** Everything in `tree` that breaks the table of rooms, in the order of the files. Empty when nothing does. */
export function checkRooms(tree: Tree): string[] {
  const found: string[] = [];
  const sources = new Map<string, Source>();
  for (const path of tree.files.filter(isProduct)) {
    const room = roomOf(path);
    if (room === undefined) {
      found.push(`${path} lies in no room of the table (tests/repo/rooms.ts)`);
      continue;
    }
    const source = readSource(path, tree.read(path));
    sources.set(path, source);
    for (const item of source.imports) {
      const complaint = checkImport(path, room, item);
      if (complaint !== undefined) found.push(complaint);
    }
    found.push(...checkPurity(path, room, source));
  }
  for (const entry of browserEntries) if (sources.has(entry)) found.push(...checkBrowserReach(entry, sources));
  return found;
}
