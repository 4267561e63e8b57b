import process from "node:process";
import { allowedSigners } from "../../evidence/allowed-signers.ts";
import { type Command, readArguments } from "../arguments.ts";
import { asOfDate, loadShop } from "../shop.ts";
import { plain, write } from "../terminal.ts";

export const command: Command = {
  usage: "gudgeon signers [paths]",
  about:
    "Prints the keys of the shop's people as an allowed-signers file, with which stock ssh-keygen -Y verify checks the files in seals/.",
  options: [],
  async run(args) {
    const { positionals } = readArguments(args, {});
    const { checker } = await loadShop(positionals, asOfDate(undefined), true);
    const { text, refused } = allowedSigners(checker.ask.people());
    write(plain(text));
    for (const one of refused)
      process.stderr.write(`gudgeon: a key of ${plain(one.person)} is left out: ${plain(one.message)}\n`);
    return refused.length > 0 ? 1 : 0;
  },
};
