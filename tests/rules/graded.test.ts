/** Findings whose severity depends on how far the job is, and the repairs that go with findings: what suites of marks do not show. */
import { describe, expect, test } from "vitest";
import type { LocatedFinding } from "../../server/checking/finding.ts";
import type { Repair } from "../../server/rules/rule.ts";
import { shopOf } from "../support/shop.ts";

const HEAD = `person ATH "Ada Thorne"
  role fitter from 2024-01-08
person RPE "Ruth Pell"
  role inspector from 2024-01-08
person CNO "Colin Noakes"
  role certifier from 2024-01-08
engine-type Curlew-9
  places cylinder[1..9]
limits Curlew-9 revision C from 2025-11-01
  limit cylinder.bore[1..9] new 98.000..98.022 mm wear max 98.070 mm
engine C9-0412 Curlew-9
route overhaul
  step build needs tool-count; sign fitter; sign inspector independent
  step close after build needs sign fitter
  step release after close needs sign certifier
job J26-014 engine C9-0412 route overhaul limits C
`;
const CLOSED = "entry E9 2026-04-15 close job J26-014\n  sign fitter ATH 2026-04-15\n";
const RELEASED = 'release 2026-04-20 J26-014 by CNO "Carried out"\n';

function found(
  text: string,
  code: string,
  asOf = "2026-05-01",
  files: Parameters<typeof shopOf>[1] = {},
): LocatedFinding[] {
  return shopOf({ "job.gudgeon": text }, { asOf, ...files })
    .checker.allFindings()
    .filter((one) => one.finding.code === code);
}
const severities = (text: string, code: string, asOf?: string): string[] =>
  found(text, code, asOf).map((one) => one.severity);

describe("work to do becomes an error once the job goes on", () => {
  const build = (lines: string): string => `${HEAD}entry E1 2026-02-27 build job J26-014\n${lines}`;
  test.each([
    ["sign/missing", build("  sign fitter ATH 2026-02-27\n"), CLOSED],
    ["sign/missing", build("  sign fitter ATH 2026-02-27\n"), RELEASED],
    ["route/evidence-missing", build("  sign fitter ATH 2026-02-27\n  sign inspector RPE 2026-02-28\n"), CLOSED],
    ["route/opened-not-closed", build("  open gear-case\n"), RELEASED],
    ["part/new-part-not-measured", build('  fit "CY-9" serial "CY-71" at cylinder[3] source "stock"\n'), CLOSED],
    ["part/new-part-not-measured", build('  fit "CY-9" serial "CY-71" at cylinder[3] source "stock"\n'), RELEASED],
    [
      "route/closed-after-last-run-without-leak-check",
      `${HEAD}run R1 2026-02-26 job J26-014 by ATH\nentry E1 2026-02-27 build job J26-014\n  close gear-case\n`,
      RELEASED,
    ],
  ])("%s", (code, open, later) => {
    expect(severities(open, code)).toEqual(["hint"]);
    expect(severities(open + later, code)).toEqual(["error"]);
  });

  test("a later step that nobody signed closes nothing; nor does one of an earlier day", () => {
    const open = build("  sign fitter ATH 2026-02-27\n");
    expect(severities(`${open}entry E9 2026-04-15 close job J26-014\n`, "sign/missing")).toEqual(["hint", "hint"]);
    expect(severities(`${open}${CLOSED.replaceAll("2026-04-15", "2026-02-20")}`, "sign/missing")).toEqual(["hint"]);
    expect(severities(`${open}${CLOSED.replace("close", "build")}`, "sign/missing")).toEqual(["hint", "hint"]);
  });

  test("an opening in a later step is no error while nothing is released", () => {
    expect(severities(`${build("  open gear-case\n")}${CLOSED}`, "route/opened-not-closed")).toEqual(["hint"]);
  });
});

test("a bulletin: mandatory and past its date an error, ahead or recommended for information", () => {
  const bulletin = (force: string): string => `${HEAD}bulletin B-07 Curlew-9 "Cam ring" ${force}\n`;
  expect(severities(bulletin("mandatory by 2026-04-30"), "bulletin/not-embodied")).toEqual(["error"]);
  expect(severities(bulletin("mandatory by 2026-05-01"), "bulletin/not-embodied")).toEqual(["information"]);
  expect(severities(bulletin("mandatory"), "bulletin/not-embodied")).toEqual(["information"]);
  expect(severities(bulletin("recommended by 2026-04-30"), "bulletin/not-embodied")).toEqual(["information"]);
  const repeated = (on: string): string =>
    `${HEAD.replace("engine C9-0412 Curlew-9\n", `engine C9-0412 Curlew-9\n  embodied B-07 on ${on}\n`)}bulletin B-07 Curlew-9 "Look at the ring" mandatory repeat 6 months\n`;
  expect(severities(repeated("2025-10-01"), "bulletin/not-embodied")).toEqual(["error"]);
  expect(severities(repeated("2026-01-01"), "bulletin/not-embodied")).toEqual([]);
});

test("an unsigned release is said once; one signed in another role lacks the route's signature", () => {
  const all = (text: string): string[] =>
    shopOf({ "job.gudgeon": `${HEAD}${CLOSED}${text}` })
      .checker.allFindings()
      .map((one) => one.finding.code)
      .filter((code) => code === "sign/missing" || code.startsWith("release/signed"));
  expect(all(RELEASED)).toEqual(["release/signed-by-nobody"]);
  expect(all(`${RELEASED}  sign inspector CNO 2026-04-20\n`)).toEqual(["sign/missing"]);
});

describe("repairs", () => {
  const repairs = (one: LocatedFinding | undefined, line = ""): readonly Repair[] => {
    const rule = one?.finding.rule as
      | { repair?: (data: unknown, spot: unknown, line: string) => readonly Repair[] }
      | undefined;
    return one && rule?.repair ? rule.repair(one.finding.data, one.finding.spot, line) : [];
  };

  test("a signature line where one person holds the role, none where two do", () => {
    const text = `${HEAD}entry E1 2026-02-27 build job J26-014\n  sign fitter ATH 2026-02-27\n`;
    expect(repairs(found(text, "sign/missing")[0])).toMatchObject([
      { grade: "review", edits: [{ kind: "append", text: "sign inspector RPE 2026-02-27" }] },
    ]);
    const two = text.replace(
      'person CNO "Colin Noakes"\n',
      'person CNO "Colin Noakes"\n  role inspector from 2009-04-01\n',
    );
    expect(repairs(found(two, "sign/missing")[0])).toEqual([]);
  });

  test("a free number for a defect", () => {
    const text = `${HEAD}entry E1 2026-02-27 build job J26-014\n  defect D1 baffle[4] "Cracked"\n  defect D7 baffle[5] "Cracked"\n  defect D1 baffle[6] "Cracked"\n`;
    expect(repairs(found(text, "defect/named-twice")[0])).toMatchObject([
      { edits: [{ kind: "replace", spot: { at: 3, role: "name" }, text: "D8" }] },
    ]);
  });

  test("the removal of the part that sits there, above the fitting; not in a signed sheet", () => {
    const text = (sign: string): string =>
      `${HEAD}entry E1 2026-02-27 build job J26-014\n  fit "PN-88" serial "P-1" at piston[3] source "stock"\n  fit "PN-88" serial "P-2" at piston[3] source "stock"\n${sign}`;
    expect(repairs(found(text(""), "part/place-occupied")[0])).toMatchObject([
      { edits: [{ kind: "insert-after", at: 1, text: 'remove part "PN-88" serial "P-1" at piston[3]' }] },
    ]);
    expect(repairs(found(text("  sign fitter ATH 2026-02-27\n"), "part/place-occupied")[0])).toEqual([]);
  });

  test("the digest of the file as it is; not in a signed sheet, not while it is not known", () => {
    const digest = "3f".repeat(32);
    const line = '  photo "photos/a.png" "Crack, ""lower"" lug" # taken at noon';
    const text = (sign: string): string => `${HEAD}entry E1 2026-02-27 build job J26-014\n${line}\n${sign}`;
    const state = { files: { "photos/a.png": { exists: true, outside: false, size: 1, digest } } };
    expect(repairs(found(text(""), "photo/no-digest", undefined, state)[0], line)).toMatchObject([
      {
        edits: [{ kind: "replace", spot: { at: 1, role: "caption" }, text: `"Crack, ""lower"" lug" sha256:${digest}` }],
      },
    ]);
    expect(repairs(found(text(""), "photo/no-digest")[0], line)).toEqual([]);
    expect(
      repairs(found(text("  sign fitter ATH 2026-02-27\n"), "photo/no-digest", undefined, state)[0], line),
    ).toEqual([]);
  });
});
