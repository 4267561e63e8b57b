import { formatDate } from "../../quantity/civil-date.ts";
import { RECALL_KINDS, type RecallKind, recall, recallText } from "../../report/recall.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

export const command: Command = {
  usage: "gudgeon recall instrument|batch|person|part NAME [paths]",
  about:
    "Lists every reading, part, signature and engine that it touched, by engine and owner, whether it still counts, and what to do.",
  options: [
    ["since DATE", "only what is of this day or later"],
    ["format text|json", "how it is printed"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, {
      since: { type: "string" },
      format: { type: "string", default: "text" },
    });
    const [kind, name, ...paths] = positionals;
    if (name === undefined || !RECALL_KINDS.includes(kind as RecallKind)) throw new Refusal(`Usage: ${command.usage}`);
    if (values.format !== "text" && values.format !== "json")
      throw new Refusal(`--format wants text or json, not "${values.format}".`);
    const since = values.since === undefined ? undefined : asOfDate(values.since);
    const shop = await loadShop(paths, asOfDate(undefined), true);
    const found = recall(shop.checker, kind as RecallKind, name, since);
    if (values.format === "json") {
      const engines = found.engines.map((engine) => ({
        ...engine,
        touched: engine.touched.map((one) => ({
          ...one,
          line: one.line + 1,
          date: one.date === undefined ? undefined : formatDate(one.date),
        })),
      }));
      write(
        `${JSON.stringify({ version: 1, kind: found.kind, name: found.name, since: values.since, engines }, undefined, 2)}\n`,
      );
    } else write(`${plain(recallText(found))}\n`);
    if (!found.known) throw new Refusal(`Nothing in these records is called ${name}.`);
    return 0;
  },
};
