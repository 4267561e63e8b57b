import { join, resolve } from "node:path";
import { existsSync, mkdirSync, readdirSync, writeFileSync } from "../../host/disk.ts";
import { today } from "../../host/today.ts";
import { engineTemplate, jobTemplate, shopTemplate } from "../../report/templates.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

const NAME = /^[\p{L}\d][\p{L}\p{M}\d._-]*$/u;

/** Writes files that must not be there yet. @throws Refusal before anything is written when one of them is */
function writeNew(folder: string, files: Readonly<Record<string, string>>): void {
  for (const name of Object.keys(files))
    if (existsSync(join(folder, name))) throw new Refusal(`${name} is there already; nothing was written.`);
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries(files)) {
    writeFileSync(join(folder, name), text, { flag: "wx" });
    write(`wrote ${plain(name)}\n`);
  }
}

export const command: Command = {
  usage: "gudgeon new shop|engine|job NAME",
  about: "Lays out the first files: a shop in a folder of its name, an engine of a type, or a job on an engine.",
  options: [
    ["type TYPE", "for an engine: its engine type (the only one there is, when left out)"],
    ["engine ENGINE", "for a job: its engine (the only one there is, when left out)"],
    ["route ROUTE", "for a job: its route"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, {
      type: { type: "string" },
      engine: { type: "string" },
      route: { type: "string" },
    });
    const [what, name, ...more] = positionals;
    if ((what !== "shop" && what !== "engine" && what !== "job") || name === undefined || more.length > 0)
      throw new Refusal(`Usage: ${command.usage}`);
    if (what === "shop") {
      const folder = resolve(name.toLowerCase().replace(/[^\p{L}\d]+/gu, "-"));
      if (existsSync(folder) && readdirSync(folder).length > 0)
        throw new Refusal(`The folder ${plain(folder)} is there already and not empty; nothing was written.`);
      writeNew(folder, shopTemplate(name, today()));
      return 0;
    }
    if (!NAME.test(name)) throw new Refusal(`"${name}" cannot be a name: letters, digits, "-", "_" and "." only.`);
    const { ask } = (await loadShop([], asOfDate(undefined))).checker;
    const only = (list: readonly string[], option: string, given: string | undefined): string => {
      if (given !== undefined && list.includes(given)) return given;
      if (given !== undefined)
        throw new Refusal(`There is no "${given}" in these records. There is: ${list.join(", ") || "nothing yet"}.`);
      if (list.length === 1 && list[0] !== undefined) return list[0];
      throw new Refusal(`Say which with --${option}: ${list.join(", ") || "there is none yet"}.`);
    };
    if (what === "engine") {
      if (ask.engine(name)) throw new Refusal(`The engine ${name} is in these records already.`);
      writeNew(".", {
        [`engine-${name}.gudgeon`]: engineTemplate(
          name,
          only([...new Set(ask.names("engine-type"))], "type", values.type),
          today(),
        ),
      });
      return 0;
    }
    if (ask.job(name)) throw new Refusal(`The job ${name} is in these records already.`);
    const engine = only([...new Set(ask.names("engine"))], "engine", values.engine);
    const routes = [...new Set(ask.names("route"))];
    const route = values.route === undefined && routes.length === 0 ? "" : only(routes, "route", values.route);
    const type = ask.engine(engine)?.type ?? "";
    const revision = [...ask.revisions(type)].sort((a, b) => (a.from ?? 0) - (b.from ?? 0)).at(-1)?.revision ?? "";
    writeNew(".", {
      [`job-${name}.gudgeon`]: jobTemplate(
        name,
        engine,
        route,
        revision,
        ask.route(route)?.steps.map((step) => step.name) ?? [],
        today(),
      ),
    });
    return 0;
  },
};
