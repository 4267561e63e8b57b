/** A run after which nobody recorded that the ignition switches off. */
import { rule } from "../rule.ts";

interface Data {
  readonly run: string;
}

/** `ignition-off`, `ignition-cut`: any check whose name begins with the word. */
const isIgnition = (name: string): boolean => name.startsWith("ignition");

export default rule({
  id: "run/no-ignition-check",
  severity: "warning",
  on: ["run"],
  page: {
    what: "The engine ran, and no `check ignition-off ok` stands after the run, in the run itself or in an entry before the next run.",
    why: "A magneto whose earth lead is broken stays live with the switch off: whoever turns the propeller afterwards may be hit.",
    remedy:
      "Before shutting down, at idle, switch off for a moment and see that the engine dies; record it as `check ignition-off ok`. Until it is proved, treat the propeller as live. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 800
  10:03 0
`,
      },
    ],
    sound: [
      {
        text: `run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 800
  10:03 0
  check ignition-off ok "Both off at idle, engine died"
`,
      },
    ],
  },
  check(run, ask, report) {
    const ran = run.logs.some((log) => log.time_s.length > 0) || run.logFiles.length > 0;
    if (!ran || run.headerBroken || run.unread.includes("check")) return;
    if (run.checks.some((check) => isIgnition(check.name))) return;
    const heads = run.job === "" ? [] : ask.work(run.job);
    const own = heads.findIndex((head) => head.ref === run.ref);
    for (const head of own < 0 ? [] : heads.slice(own + 1)) {
      if (head.kind === "run") break;
      if (ask.workBlock(head.ref)?.checks.some((check) => isIgnition(check.name))) return;
    }
    report({ at: 0, role: "name" }, { run: run.name });
  },
  say: (d: Data) =>
    `No ignition check stands after run ${d.run}: nothing shows that the magnetos are dead with the switch off. Whoever turns the propeller may be hit: treat it as live, prove the switch at idle, and record check ignition-off.`,
});
