import { existsSync } from "../../host/disk.ts";
import { matchableFigures, matchReport } from "../../report/match-report.ts";
import { toText } from "../../report/summary.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, Refusal, write } from "../terminal.ts";

export const command: Command = {
  usage: "gudgeon match JOB [FIGURE] [paths]",
  about:
    "Which measured part goes to which place, so that every clearance is inside its new limits and the spread is least; with the lines to enter.",
  options: [],
  async run(args) {
    const { positionals } = readArguments(args, {});
    const names = positionals.filter((one) => !existsSync(one));
    const shop = await loadShop(
      positionals.filter((one) => existsSync(one)),
      asOfDate(undefined),
      true,
    );
    const { ask } = shop.checker;
    const [job = "", figure] = names;
    if (!ask.job(job)) {
      const jobs = ask.jobs().map((one) => one.name);
      throw new Refusal(`There is no job "${job}" in these records. Jobs: ${jobs.join(", ") || "none"}.`);
    }
    const figures = matchableFigures(ask, job);
    if (figures.length === 0)
      throw new Refusal(
        `The limits of ${job} have no figure to match for: one feature less another, with new limits at both ends.`,
      );
    if (figure !== undefined && !figures.includes(figure))
      throw new Refusal(`Nothing is matched for "${figure}". Figures: ${figures.join(", ")}.`);
    const summaries = matchReport(ask, job, figure);
    write(
      `${plain(summaries.map(toText).join("\n\n"))}\n\nThe maker's data and whoever builds the engine decide; weigh and look at the parts before they change places.\n`,
    );
    return 0;
  },
};
