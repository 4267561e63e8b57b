/** The settings of the editor, read so that a wrong value falls back and is said once. */
import { parseDate } from "../quantity/civil-date.ts";
import type { Settings } from "./protocol.ts";

export const DEFAULT_SETTINGS: Settings = { run: "onType", delay: 0, scope: "workspace", asOf: "" };

/** Longest delay that makes sense, in milliseconds. */
const LONGEST_DELAY = 10_000;

/**
 * @param raw whatever the editor sent for the section `gudgeon`
 * @param complain gets a sentence for each value that cannot be used
 */
export function readSettings(raw: unknown, complain: (sentence: string) => void): Settings {
  const given = (typeof raw === "object" && raw !== null ? raw : {}) as Record<string, unknown>;
  const oneOf = <T extends string>(name: string, values: readonly T[], fallback: T): T => {
    const value = given[name];
    if (value === undefined || value === null) return fallback;
    if (values.includes(value as T)) return value as T;
    complain(
      `The setting gudgeon.${name} is one of ${values.join(", ")}, not ${JSON.stringify(value)}; ${fallback} is used.`,
    );
    return fallback;
  };
  let { delay, asOf } = DEFAULT_SETTINGS;
  if (typeof given["delay"] === "number" && given["delay"] >= 0) delay = Math.min(given["delay"], LONGEST_DELAY);
  else if (given["delay"] !== undefined && given["delay"] !== null)
    complain(
      `The setting gudgeon.delay is a number of milliseconds, not ${JSON.stringify(given["delay"])}; ${delay} is used.`,
    );
  const day = given["asOf"];
  if (typeof day === "string" && (day.trim() === "" || parseDate(day.trim()) !== undefined)) asOf = day.trim();
  else if (day !== undefined && day !== null)
    complain(
      `The setting gudgeon.asOf is a day such as 2026-05-02 or empty, not ${JSON.stringify(day)}; today is used.`,
    );
  return {
    run: oneOf("run", ["onType", "onSave"], DEFAULT_SETTINGS.run),
    scope: oneOf("scope", ["workspace", "openFiles"], DEFAULT_SETTINGS.scope),
    delay,
    asOf,
  };
}
