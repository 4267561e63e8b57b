/** Arguments of a command, read by the platform's own reader with messages for people. */
import { type ParseArgsConfig, parseArgs } from "node:util";
import { Refusal } from "./terminal.ts";

type Options = NonNullable<ParseArgsConfig["options"]>;

/** What a command says of itself; `help` prints it. */
export interface Command {
  readonly usage: string;
  readonly about: string;
  /** Option name without dashes, and what it does. */
  readonly options: readonly (readonly [string, string])[];
  /** @returns the exit code: 0 nothing to say, 1 findings, 2 could not run */
  run(args: readonly string[]): Promise<number> | number;
}

/** @throws Refusal for an option that the command does not have */
export function readArguments<const O extends Options>(args: readonly string[], options: O) {
  try {
    return parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    throw new Refusal((error instanceof Error ? error.message : String(error)).split("\n")[0] ?? "");
  }
}

/** @throws Refusal when it is no whole number from 0 on */
export function wholeNumber(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (!/^\d{1,9}$/u.test(text)) throw new Refusal(`--${option} wants a whole number, not "${text}".`);
  return Number(text);
}
