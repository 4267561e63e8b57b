import { JOB } from "../record-shops.ts";
import { rule } from "../rule.ts";

interface Found {
  readonly part: string;
  readonly which: string;
}

const fitting = (rest: string): string =>
  `${JOB}entry E1 2026-02-27 build job J26-014\n  fit part "CV-2201" qty 9 batch B77${rest}\n`;

export default rule<"engine" | "entry", Found>({
  id: "part/no-source",
  severity: "warning",
  on: ["engine", "entry"],
  reads: ["fits"],
  page: {
    what: "A part was fitted and nothing says where it came from.",
    why: "A part is as good as its papers: a release note, a certificate, the engine it came out of. Without them nobody can tell a sound part from a copy, or trace a bad batch.",
    remedy: 'Name the paper that came with it: `source "release note 5512"`.',
    faulty: [{ text: fitting("") }],
    sound: [{ text: fitting(' source "release note 5512"') }],
  },
  check(block, _ask, report) {
    for (const fit of block.fits) {
      if (fit.source.trim() !== "") continue;
      const which = fit.serial !== "" ? ` serial ${fit.serial}` : fit.batch !== "" ? ` batch ${fit.batch}` : "";
      report({ at: fit.at, role: "number" }, { part: fit.part, which }, { place: fit.place?.text ?? "" });
    }
  },
  say: ({ part, which }) =>
    `Nothing says where ${part}${which} came from, so it cannot be traced. Name its paper: source "...".`,
});
