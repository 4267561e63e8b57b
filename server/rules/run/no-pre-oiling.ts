/** The first start after a build, with no word that the engine was pre-oiled. */
import { rule } from "../rule.ts";

interface Data {
  readonly build: string;
}

const NAMES = new Set(["pre-oiled", "pre-oiling"]);

export default rule({
  id: "run/no-pre-oiling",
  severity: "warning",
  on: ["run"],
  page: {
    what: "This is the job's first run after the engine was built up, and no `check pre-oiled ok` stands before it.",
    why: "Bearings that were assembled days ago have only the assembly oil left, and the pump takes long seconds to fill the galleries.",
    remedy:
      "Pre-oil before the first start until oil shows at the last bearing and pressure stands on the gauge, ignition off and plugs out, by the maker's data; record it as a check. Running an engine can hurt or kill: keep clear of the propeller and follow the maker's data and the local rules, which come before anything said here.",
    faulty: [
      {
        text: `job J1 engine C9-0412
entry E1 2026-04-01 build "Barrels" job J1
  torque cylinder.nut[1..9] 40 N.m oiled
run R1 2026-04-11 job J1 by ATH second RPE
  log time crank.speed/rpm
  10:02 0
  10:03 800
`,
      },
    ],
    sound: [
      {
        text: `job J1 engine C9-0412
entry E1 2026-04-01 build "Barrels" job J1
  torque cylinder.nut[1..9] 40 N.m oiled
run R1 2026-04-11 job J1 by ATH second RPE
  check pre-oiled ok "Oil at the rocker boxes"
  log time crank.speed/rpm
  10:02 0
  10:03 800
`,
      },
    ],
  },
  check(run, ask, report) {
    if (run.job === "" || run.headerBroken || (run.logs.length === 0 && run.logFiles.length === 0)) return;
    const heads = ask.work(run.job);
    const first = heads.find((head) => head.kind === "run");
    if (first?.ref !== run.ref) return;
    const ranks = new Map(heads.map((head, rank) => [head.ref, rank]));
    const own = ranks.get(run.ref) ?? 0;
    const before = (ref: string): boolean => (ranks.get(ref) ?? Number.POSITIVE_INFINITY) < own;
    const built =
      ask.facts(run.job, "torques").find(({ block }) => before(block.ref)) ??
      ask.facts(run.job, "fits").find(({ block }) => before(block.ref)) ??
      ask.facts(run.job, "locked").find(({ block }) => before(block.ref));
    if (!built || run.unread.includes("check")) return;
    const oiled = ask
      .facts(run.job, "checks")
      .some(
        ({ block, fact }) =>
          NAMES.has(fact.name) && fact.ok && (block.ref === run.ref ? fact.afterRows === 0 : before(block.ref)),
      );
    if (oiled) return;
    report(
      { at: 0, role: "name" },
      { build: built.block.ref },
      { related: [{ ref: built.block.ref, spot: { at: built.fact.at }, says: "built up here" }] },
    );
  },
  say: (d: Data) =>
    `First run after the build (${d.build}), and no check pre-oiled stands before it. Bearings are dry until the pump has filled the galleries: pre-oil, ignition off and plugs out, and record the check.`,
  repair: () => [
    {
      title: "Lay out the check, for whoever did it to complete",
      grade: "review",
      edits: [{ kind: "insert-after", at: 0, text: 'check pre-oiled ok ""' }],
    },
  ],
});
