#!/usr/bin/env node
import process from "node:process";
/** The command `gudgeon`. Each command is a file of its own, loaded only when it is asked for. */
import { keepCompiledCode } from "../host/compiled-code.ts";
import type { Command } from "./arguments.ts";
import { plain, Refusal, style, write } from "./terminal.ts";

declare const GUDGEON_VERSION: string | undefined;

const COMMANDS: Readonly<Record<string, () => Promise<{ readonly command: Command }>>> = {
  check: () => import("./commands/check.ts"),
  explain: () => import("./commands/explain.ts"),
  format: () => import("./commands/format.ts"),
  totals: () => import("./commands/totals.ts"),
  due: () => import("./commands/due.ts"),
  match: () => import("./commands/match.ts"),
  new: () => import("./commands/new.ts"),
  sign: () => import("./commands/sign.ts"),
  signers: () => import("./commands/signers.ts"),
  recall: () => import("./commands/recall.ts"),
  diff: () => import("./commands/diff.ts"),
  photos: () => import("./commands/photos.ts"),
};

async function usage(): Promise<string> {
  const lines = [
    "gudgeon checks the engine records of a shop: plain text in, findings, sums and due items out.",
    "",
    "Usage:",
  ];
  for (const load of Object.values(COMMANDS)) {
    const { command } = await load();
    lines.push(`  ${style("bold", command.usage)}`, `      ${command.about}`);
    for (const [name, about] of command.options) lines.push(`      ${`--${name}`.padEnd(22)} ${about}`);
  }
  lines.push(
    "",
    "Exit codes: 0 nothing at error, 1 findings, 2 could not run.",
    "Gudgeon checks records; people decide and sign. It never says that an engine is fit to run or to fly.",
    "",
  );
  return lines.join("\n");
}

async function main(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === "help" || name === "--help" || name === "-h") {
    write(await usage());
    return name === undefined ? 2 : 0;
  }
  if (name === "--version" || name === "version") {
    write(`gudgeon ${typeof GUDGEON_VERSION === "string" ? GUDGEON_VERSION : "from source"}\n`);
    return 0;
  }
  const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (!load) throw new Refusal(`There is no command "${plain(name)}". Commands: ${Object.keys(COMMANDS).join(", ")}.`);
  const { command } = await load();
  if (rest.includes("--help")) {
    write(
      `Usage: ${command.usage}\n\n${command.about}\n${command.options.map(([option, about]) => `  ${`--${option}`.padEnd(24)} ${about}\n`).join("")}`,
    );
    return 0;
  }
  return command.run(rest);
}

keepCompiledCode();

// A reader that goes away (`| head`) ends the command quietly.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(process.exitCode ?? 0);
});

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  process.exitCode = 2;
  if (error instanceof Refusal) process.stderr.write(`gudgeon: ${plain(error.message)}\n`);
  else
    process.stderr.write(
      `gudgeon: something went wrong that should not: ${plain(error instanceof Error ? (error.stack ?? error.message) : String(error))}\n`,
    );
}
