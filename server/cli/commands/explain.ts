import { nearestRules, rulePage } from "../../report/rule-page.ts";
import { type Command, readArguments } from "../arguments.ts";
import { Refusal, write } from "../terminal.ts";

export const command: Command = {
  usage: "gudgeon explain CODE",
  about: "Prints the page of a finding: what it says, why it matters, what to do, with examples.",
  options: [],
  run(args) {
    const { positionals } = readArguments(args, {});
    const code = positionals[0];
    if (code === undefined) throw new Refusal("explain wants a code, for example: gudgeon explain limit/out-of-limit");
    const page = rulePage(code);
    if (page === undefined) {
      const near = nearestRules(code);
      throw new Refusal(
        `There is no finding "${code}".${near.length > 0 ? ` Did you mean ${near.join(" or ")}?` : ""}`,
      );
    }
    write(`${page}\n`);
    return 0;
  },
};
