import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly what: string;
}

export default rule<"job" | "engine", Found>({
  id: "shop/none-declared",
  severity: "information",
  on: ["job", "engine"],
  page: {
    what: "There are records and no `shop` block. The settings are then the language's own: readings are judged with the guard band, running on the stand counts as engine hours, and inspectors and certifiers hold the usual authority.",
    why: "How readings are judged and who may decide are matters of the shop, and whoever reads the records should find them there.",
    remedy:
      'Add a file with a `shop` block: `shop "NAME"`, with `language 1`, `decision`, `stand-time` and the `authority` lines.',
    faulty: [{ text: JOB }],
    sound: [{ text: `shop "Saltmarsh Engine Works"\n  language 1\n${JOB}` }],
  },
  check(block, ask, report) {
    if (ask.shop().ref !== "") return;
    // Said once in the folder: at the first job, or at the first engine where there is no job yet.
    const first = ask.jobs()[0] ?? ask.engines()[0];
    if (first?.ref === block.ref) report({ at: 0, role: "name" }, { what: block.name });
  },
  say: () =>
    "There is no shop block in this folder, so readings are judged with the guard band and the usual roles decide. Add one that says so, or says otherwise.",
});
