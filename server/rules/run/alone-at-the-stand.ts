/** A run at which nobody stood by. */
import { rule } from "../rule.ts";

interface Data {
  readonly by: string;
  readonly same: boolean;
}

export default rule({
  id: "run/alone-at-the-stand",
  severity: "warning",
  on: ["run"],
  page: {
    what: "The run names who ran the engine, but nobody who stood by.",
    why: "An engine on a stand can catch fire, shed a blade or hurt whoever reaches for it; alone, nobody can shut the fuel, call help or use the extinguisher.",
    remedy:
      "Name the second person with `second NAME`; if there was none, do not run so again. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [{ text: `run R1 2026-04-11 job J1 by ATH\n` }],
    sound: [{ text: `run R1 2026-04-11 job J1 by ATH second RPE\n` }],
  },
  check(run, _ask, report) {
    if (run.headerBroken || run.by === "") return;
    if (run.second === "" || run.second === run.by)
      report({ at: 0, role: run.second === "" ? "by" : "second" }, { by: run.by, same: run.second !== "" });
  },
  say: (d: Data) =>
    d.same
      ? `${d.by} is named as operator and as second person, so nobody stood by. Somebody else must be there to shut the fuel and call help: name that person, or do not run.`
      : `${d.by} ran the engine with nobody named to stand by. Somebody must be there to shut the fuel, call help and use the extinguisher: add second NAME.`,
});
