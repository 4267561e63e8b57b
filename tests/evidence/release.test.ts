// What a release's seal covers: the work of its job and what that was judged by, as it stood on the day. The rules are those of grammar/seals.md;
// the digests are computed here once more with Node's own SHA-256.

import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { asOfDay } from "../../grammar/canonical.ts";
import { planSigning } from "../../server/report/plan-signing.ts";
import { releaseDigests, reliedOn } from "../../server/totals/relied-on.ts";
import { day, shopOf } from "../support/shop.ts";

const sha = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

const SEAL = sha('entry E1 2026-02-19 inspect job J26-014\ncheck fins ok "Clean"');
const FILES = {
  "base.gudgeon": `person ATH "Ada Thorne"
  role fitter from 2024-01-08
person CNO "Colin Noakes"
  role certifier from 2024-01-08
  note Keeps the stamp
instrument BG-2 "Bore gauge"
  calibrated 2026-01-10 until 2027-01-10
engine-type Curlew-9
engine C9-0412 Curlew-9
  hours tsn 812.4 h on 2026-01-05
`,
  "job.gudgeon": `job J26-014 engine C9-0412
entry E1 2026-02-19 inspect job J26-014
  check fins ok "Clean"
  sign fitter ATH 2026-02-19 seal 1:${SEAL}
entry E2 2026-02-20 inspect job J26-014
  measure cylinder.bore[1] 98.001 mm with BG-2
release 2026-04-20 J26-014 by CNO "Carried out"
`,
};
const list = (files: Record<string, string>): string[] => {
  const { ask } = shopOf(files).checker;
  return ask
    .total(reliedOn, "J26-014/release")
    .map(({ block, name, digest }) => `${block} ${name} ${digest}`)
    .sort();
};

test("what is listed, each with its digest", () => {
  expect(list(FILES)).toEqual(
    [
      `engine C9-0412 ${sha("engine C9-0412 Curlew-9\nhours tsn 812.4 h on 2026-01-05")}`,
      `engine-type Curlew-9 ${sha("engine-type Curlew-9")}`,
      `entry E1 ${SEAL}`,
      `entry E2 ${sha("entry E2 2026-02-20 inspect job J26-014\nmeasure cylinder.bore[1] 98.001 mm with BG-2")}`,
      `instrument BG-2 ${sha('instrument BG-2 "Bore gauge"\ncalibrated 2026-01-10')}`,
      `job J26-014 ${sha("job J26-014 engine C9-0412")}`,
      `person ATH ${sha('person ATH "Ada Thorne"\nrole fitter from 2024-01-08')}`,
      `person CNO ${sha('person CNO "Colin Noakes"\nrole certifier from 2024-01-08')}`,
    ].sort(),
  );
});

describe("what breaks the seal of a release and what does not", () => {
  const { checker } = shopOf(FILES);
  const planned = planSigning(checker, "J26-014/release", { person: "CNO", on: day("2026-04-20") });
  if (!("plan" in planned)) throw new Error(planned.refused);
  const sealed = { ...FILES, "job.gudgeon": `${FILES["job.gudgeon"]}${planned.plan.text}\n` };
  const holds = (files: Record<string, string>): boolean => {
    const { ask } = shopOf(files).checker;
    const { seal } = planned.plan.sign;
    return `1:${ask.total(releaseDigests, "J26-014/release")[seal]}` === seal;
  };
  const change = (file: keyof typeof FILES, from: string, to: string): boolean => {
    expect(sealed[file]).toContain(from);
    return holds({ ...sealed, [file]: sealed[file].replace(from, to) });
  };
  test("as it was sealed", () => expect(holds(sealed)).toBe(true));
  test.each([
    ["an entry goes", "job.gudgeon", "  measure cylinder.bore[1] 98.001 mm with BG-2\n", ""],
    ["a reading in an entry without a seal changes", "job.gudgeon", "98.001", "98.002"],
    ["the seal of an entry changes", "job.gudgeon", SEAL, "0".repeat(64)],
    ["the header of the release changes", "job.gudgeon", "Carried out", "Carried  out"],
    ["the calibration of a gauge moves", "base.gudgeon", "calibrated 2026-01-10", "calibrated 2026-01-11"],
    ["the calibration is cut to before the release", "base.gudgeon", "until 2027-01-10", "until 2026-04-19"],
    ["hours of an earlier day change", "base.gudgeon", "812.4", "812.5"],
    ["a role begins on another day", "base.gudgeon", "role certifier from 2024", "role certifier from 2025"],
  ] as const)("broken: %s", (_name, file, from, to) => expect(change(file, from, to)).toBe(false));
  test.each([
    [
      "the gauge is calibrated again",
      "base.gudgeon",
      "until 2027-01-10\n",
      "until 2027-01-10\n  calibrated 2027-01-08 until 2028-01-08\n",
    ],
    ["its validity is drawn in to a day after the release", "base.gudgeon", "until 2027-01-10", "until 2026-08-01"],
    ["hours are added", "base.gudgeon", "on 2026-01-05\n", "on 2026-01-05\n  hours tsn 830.0 h on 2026-08-05\n"],
    ["the certifier leaves", "base.gudgeon", "certifier from 2024-01-08", "certifier from 2024-01-08 until 2026-12-31"],
    ["a note on a person", "base.gudgeon", "Keeps the stamp", "Kept the stamp"],
    [
      "an entry of a later day that amends",
      "job.gudgeon",
      "release 2026",
      'entry E3 2026-05-02 review job J26-014\n  amends E2 "Sheet misread"\nrelease 2026',
    ],
    [
      "layout and comments everywhere",
      "job.gudgeon",
      "  measure cylinder.bore[1]",
      "# re-read\n\tmeasure   cylinder.bore[1]",
    ],
    [
      "a second signature below",
      "job.gudgeon",
      planned.plan.text,
      `${planned.plan.text}\n  sign fitter ATH 2026-04-21`,
    ],
  ] as const)("holds: %s", (_name, file, from, to) => expect(change(file, from, to)).toBe(true));

  test("an edit of a note or a comment is answered without a fresh run", () => {
    const shop = shopOf(sealed);
    const at = (path: string, text: string): number =>
      shop.workspace.document(path)?.lines.findIndex((line) => line.includes(text)) ?? -1;
    const digest = () => shop.checker.ask.total(releaseDigests, "J26-014/release")[planned.plan.sign.seal];
    expect(`1:${digest()}`).toBe(planned.plan.sign.seal);
    // A note in an entry without a seal is text of that entry, and no fact.
    shop.checker.apply(shop.workspace.edit("job.gudgeon", at("job.gudgeon", "measure") + 1, 0, ["  note Read twice"]));
    expect(`1:${digest()}`).not.toBe(planned.plan.sign.seal);
    shop.checker.apply(shop.workspace.edit("job.gudgeon", at("job.gudgeon", "Read twice"), 1, ["  # Read twice"]));
    expect(`1:${digest()}`).toBe(planned.plan.sign.seal);
  });
});

test("as of a day, by the characters", () => {
  expect(
    asOfDay(
      'person A "x"\nnote 1\nrole r from 2020-01-01 until 2026-04-20\nrole s from 2020-01-01 until 2026-04-19\nlicence "until 2030-01-01" from 2020-01-01\nkey "k" from 2026-04-21',
      "2026-04-20",
    ),
  ).toBe(
    'person A "x"\nrole r from 2020-01-01\nrole s from 2020-01-01 until 2026-04-19\nlicence "until 2030-01-01" from 2020-01-01',
  );
});
