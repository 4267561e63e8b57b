import { dueReport } from "../../report/due-report.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

export const command: Command = {
  usage: "gudgeon due [paths]",
  about: "Lists what falls due on each engine, what is past first, with the figures behind it.",
  options: [
    ["within 30d", "only what is past or due within so many days (30d) or hours (20h)"],
    ["as-of DATE", "judge as of this day instead of today"],
  ],
  async run(args) {
    const { values, positionals } = readArguments(args, { within: { type: "string" }, "as-of": { type: "string" } });
    let within: { days?: number; hours?: number } | undefined;
    if (values.within !== undefined) {
      const span = /^(\d{1,6})\s*([dh])$/u.exec(values.within);
      if (!span) throw new Refusal(`--within wants days or hours, such as 30d or 20h, not "${values.within}".`);
      within = span[2] === "d" ? { days: Number(span[1]) } : { hours: Number(span[1]) };
    }
    const shop = await loadShop(positionals, asOfDate(values["as-of"]), true);
    write(`${plain(dueReport(shop.checker.ask, within))}\n`);
    return 0;
  },
};
