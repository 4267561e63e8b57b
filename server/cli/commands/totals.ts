import { existsSync } from "../../host/disk.ts";
import { engineSummary } from "../../report/engine-summary.ts";
import { jobSummaryOf } from "../../report/job-summary.ts";
import { type Summary, toText } from "../../report/summary.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

export const command: Command = {
  usage: "gudgeon totals [engine|job] [paths]",
  about:
    "Sums: of an engine its hours, due items, defects and bulletins; of a job its coverage, labour, runs and open items. All of them when none is named.",
  options: [["as-of DATE", "judge as of this day instead of today"]],
  async run(args) {
    const { values, positionals } = readArguments(args, { "as-of": { type: "string" } });
    const names = positionals.filter((one) => !existsSync(one));
    const shop = await loadShop(
      positionals.filter((one) => existsSync(one)),
      asOfDate(values["as-of"]),
      true,
    );
    const { ask } = shop.checker;
    const engines = ask.engines().map((engine) => engine.name);
    const jobs = ask.jobs().map((job) => job.name);
    const summaries: (Summary | undefined)[] = [];
    for (const name of names) {
      if (!engines.includes(name) && !jobs.includes(name))
        throw new Refusal(
          `There is no engine or job "${name}" in these records. Engines: ${engines.join(", ") || "none"}. Jobs: ${jobs.join(", ") || "none"}.`,
        );
      summaries.push(engines.includes(name) ? engineSummary(ask, name) : jobSummaryOf(ask, name));
    }
    if (names.length === 0)
      summaries.push(
        ...engines.map((name) => engineSummary(ask, name)),
        ...jobs.map((name) => jobSummaryOf(ask, name)),
      );
    const texts = summaries.filter((one) => one !== undefined).map(toText);
    write(
      texts.length === 0 ? "There are no engines and no jobs in these records.\n" : `${plain(texts.join("\n\n"))}\n`,
    );
    return 0;
  },
};
