import { describe, expect, test } from "vitest";
import { hover } from "../../server/features/hover.ts";
import { marked, under } from "../support/cursor.ts";
import { INSPECT, JOB, SHOP, TYPE, withFile } from "./small-shop.ts";

/** The hover at the mark, without the signs that keep Markdown from reading names as its own. */
function hoverAt(files: Record<string, string>): { text: string; over: string } {
  const { ctx, shop, path, position } = marked(files);
  const found = hover(ctx, path, position);
  return {
    text: (found?.markdown ?? "").replaceAll(/\\(?=[[\]()*_#|!~<>{}])/gu, ""),
    over: found ? under(shop, path, found.range) : "",
  };
}

describe("a reading", () => {
  test("is shown in both families of units, against its limit, with the wear used and what the gauge can prove", () => {
    const { text, over } = hoverAt(withFile(INSPECT.replace("98.083", "98.0<|>83")));
    expect(over).toBe("98.083");
    expect(text).toContain("cylinder.bore[2/head]: 98.083 mm (3.86154 in)");
    expect(text).toContain("limit: new 98.000..98.022 mm, wear max 98.070 mm (Curlew-9 revision C, ref 4-2)");
    // 98.083 - 98.070 and (98.083 - 98.022) / (98.070 - 98.022), worked by hand.
    expect(text).toContain("margin: 0.013 mm above wear limit 98.070 mm");
    expect(text).toContain("allowance used: 127 %");
    expect(text).toContain("drawn in by the uncertainty 0.002: 98.002..98.068");
    expect(text).toContain("this row: 98.026 mm at 2/skirt to 98.083 mm at 2/head, 2 readings");
    expect(text).toContain("taper of cylinder.bore[2]: 98.083 mm - 98.026 mm = 0.057 mm");
  });

  test("inside its limit says how far from both ends", () => {
    expect(hoverAt(withFile(INSPECT.replace("98.031", "98<|>.031"))).text).toContain(
      "margin: inside: 0.031 mm above the least, 0.039 mm below the greatest, not within the new limits",
    );
  });

  test("equal to its limit is inside, by nothing", () => {
    expect(hoverAt(withFile(INSPECT.replace("98.083", "<|>98.070"))).text).toContain("0.000 mm below the greatest");
  });

  test("still to be taken says so", () => {
    expect(hoverAt(withFile(INSPECT.replace("3 ? ?", "3 <|>? ?"))).text).toContain(
      "cylinder.bore[3/head]: still to be taken",
    );
  });

  test("names what that place showed before and after", () => {
    const text = hoverAt(
      withFile(
        `${INSPECT.replace("98.083", "98.0<|>83")}entry E3 2026-02-25 inspect job J26-014\n  rework cylinder.bore[2] "Honed"\n  measure cylinder.bore[2/head] 98.060 mm with BG-2\n`,
      ),
    ).text;
    expect(text).toContain("standing: superseded (reworked) by E3");
    expect(text).toContain("J26-014/E3 2026-02-25: 98.060 mm");
  });

  test("of a whole row by its label", () => {
    const { text } = hoverAt(withFile(INSPECT.replace("  2 98", "  <|>2 98")));
    expect(text).toContain("cylinder.bore[2]: 2 readings");
    expect(text).toContain("head: 98.083 mm (3.86154 in); 0.013 mm above wear limit");
  });
});

describe("a torque", () => {
  const torque = (line: string): string => hoverAt(withFile(`entry E3 2026-03-01 build job J26-014\n  ${line}\n`)).text;
  test("shows the setting of the wrench with its adapter", () => {
    const text = torque("torque cylinder.nut[1/1..2] 4<|>0 N.m oiled with TW-2 adapter 50 mm on 300 mm set 34.3 N.m");
    expect(text).toContain("cylinder.nut[1/1..2]: 40 N.m (29.5 lbf.ft) at 2 fasteners");
    expect(text).toContain("limit: 38..42 N.m, oiled, locked by wire (Curlew-9 revision C, ref 4-9)");
    // US Army TM 9-254 pp. 91-92: setting = torque x wrench / (wrench + adapter) = 40 x 300 / 350.
    expect(text).toContain("Dial: 40 N.m at the fastener x 300 / 350 = 34.29 N.m.");
  });
  test("with another lubrication than the limit's says so", () => {
    expect(torque("torque cylinder.nut[1/1..2] 4<|>0 N.m dry with TW-2")).toContain("dry, but the limit is for oiled");
  });
});

describe("the reference side", () => {
  test("a limit says how the jobs that work to it stand", () => {
    const { text } = hoverAt({
      ...SHOP,
      "work.gudgeon": INSPECT,
      "type.gudgeon": TYPE.replace("98.000..98.022", "98.000..98<|>.022"),
    });
    expect(text).toContain("Limit of cylinder.bore[1..9], Curlew-9 revision C");
    expect(text).toContain("greatest 98.070 mm (3.86102 in)");
    expect(text).toContain("J26-014: 4 of 18 measured: 1 within new, 2 within wear, 1 out");
  });
  test("a torque of the limits, what is done of it", () => {
    expect(hoverAt({ ...SHOP, "type.gudgeon": TYPE.replace("38..42", "38..<|>42") }).text).toContain(
      "J26-014: 0 of 18 torqued",
    );
  });
  test("an instrument says whether it was in calibration on the day of the block", () => {
    expect(hoverAt(withFile(INSPECT.replace("with BG-2", "with BG<|>-9"))).text).toContain(
      "calibration on 2026-02-19: lapsed, 2025-01-10",
    );
    expect(hoverAt(withFile(INSPECT.replace("with BG-2", "with BG<|>-2"))).text).toContain(
      "calibration on 2026-02-19: good until 2027-01-10",
    );
  });
  test("a person says which roles are held on that day", () => {
    const { text } = hoverAt(withFile(`${INSPECT}  sign fitter O<|>LD 2026-02-19\n`));
    expect(text).toContain("OLD Sæmund Óskarsson");
    expect(text).toContain("fitter: from 2010-01-01 until 2020-12-31; not on 2026-02-19");
  });
  test("a task and a bulletin say how the engines stand", () => {
    expect(hoverAt(withFile("entry E3 2026-03-01 inspect job J26-014\n  done strainer<|>-clean\n")).text).toMatch(
      /every: 25 h or 6 months[\s\S]*C9-0412: last done 2026-03-01/u,
    );
    expect(hoverAt(withFile("entry E3 2026-03-01 inspect job J26-014\n  embodied B<|>-07\n")).text).toContain(
      "C9-0412: embodied 2026-03-01",
    );
  });
  test("a batch that an alert names is called suspect", () => {
    expect(
      hoverAt(
        withFile('entry E3 2026-03-01 build job J26-014\n  fit part "CG-1102" qty 2 batch B<|>71 source "note 1"\n'),
      ).text,
    ).toMatch(/alert A-3: Guides below hardness[\s\S]*J26-014\/E3: CG-1102 x 2/u);
  });
  test("a step says what it still wants", () => {
    expect(hoverAt(withFile(INSPECT.replace("inspect", "ins<|>pect"))).text).toMatch(
      /Step inspect of route top-overhaul[\s\S]*sign inspector independent: wants/u,
    );
  });
  test("a word says what the line says, and a code what its rule says", () => {
    expect(hoverAt(withFile(INSPECT.replace("  grid", "  gr<|>id"))).text).toContain("A table of readings");
    expect(hoverAt(withFile(`${INSPECT}  accept limit/not-<|>proven E2 by RPE 2026-02-20 "x"\n`)).text).toContain(
      "**limit/not-proven**",
    );
  });
});

describe("totals", () => {
  test("an engine: hours, defects, bulletins, jobs", () => {
    const { text } = hoverAt({ ...SHOP, "job.gudgeon": JOB.replace("C9-0412", "C9<|>-0412"), "work.gudgeon": INSPECT });
    expect(text).toContain("since new (tsn): 1184.3 h");
    expect(text).toContain("J26-014/D1: baffle[4]: Cracked at the lower lug");
    expect(text).toContain("B-07: Cam ring to revision C: mandatory, not embodied");
  });
  test("a job: what is measured, labour, what is open", () => {
    const { text } = hoverAt({ ...SHOP, "job.gudgeon": JOB.replace("job J26", "job J<|>26"), "work.gudgeon": INSPECT });
    expect(text).toContain("steps done: 1 of 3");
    expect(text).toContain("labour: 2 h (ATH 2 h)");
    expect(text).toContain("defects open: D1");
  });
  test("a run: time at speed, each channel with its limit", () => {
    const { text } = hoverAt(
      withFile(`run R1 2026-04-01 job J26-014 stand TS-1 by ATH second RPE
  log time crank.speed/rpm oil.pressure/psi
  10:00 800 60
  10:01 800 62
  10:02 8<|>00 61
  fuel 3 L
`),
    );
    expect(text).toContain("crank.speed at 10:02: 800 rpm");
    const whole = hoverAt(
      withFile(`run R<|>1 2026-04-01 job J26-014 stand TS-1 by ATH second RPE
  log time crank.speed/rpm oil.pressure/psi
  10:00 800 60
  10:01 800 62
  10:02 800 61
  fuel 3 L
`),
    ).text;
    expect(whole).toContain("500 to 1000 rpm: 2 min");
    expect(whole).toContain(
      "oil.pressure (psi): 60 to 62 (at 10:01), mean 61.3; limit min 55 psi max 85 psi while crank.speed 1400..2300 rpm",
    );
    // 3 L in two minutes is 90 L/h.
    expect(whole).toContain("fuel: 3 L (90.0 L/h)");
    expect(whole).toContain("step 1: met: 2 min of 2 min at 700..900 rpm");
  });
  test("a compression: leakage of the supply", () => {
    const { text } = hoverAt(
      withFile(
        "entry E3 2026-03-01 build job J26-014\n  compression differential supply 80 psi orifice 0.040 in warm with PG-3\n  1 7<|>6 heard rings\n  2 72\n",
      ),
    );
    expect(text).toContain("Compression of cylinder 1: 76 psi (524 kPa)");
    // AC 43.13-1B para 8-14: leakage is supply less reading, 4 of 80 psi.
    expect(text).toContain("leakage: 4 psi, 5.0 % of the supply");
  });
});

describe("where there is nothing to say", () => {
  test.each([
    ["an empty file", "<|>"],
    ["a blank line", "entry E3 2026-03-01 build job J26-014\n<|>\n"],
    ["a comment", "entry E3 2026-03-01 build job J26-014\n  # BG<|>-2 was cold\n"],
    ["a note", "entry E3 2026-03-01 build job J26-014\n  note BG<|>-2 was cold\n"],
  ])("%s has no hover", (_what, text) => {
    const { ctx, path, position } = marked(withFile(text));
    expect(hover(ctx, path, position)?.markdown ?? "").not.toContain("BG-2 Bore gauge");
  });
  test("a name that nobody declares is called so", () => {
    expect(hoverAt(withFile(INSPECT.replace("BG-2", "BG<|>-77"))).text).toContain(
      "No instrument of the name BG-77 is declared",
    );
  });
  test("text from a record stays text", () => {
    const { ctx, path, position } = marked({
      ...SHOP,
      "job.gudgeon": JOB.replace("C9-0412", "C9<|>-0412"),
      "engine.gudgeon": SHOP["engine.gudgeon"]?.replace("Fenland Flying Museum", "![x](http://a) <b>") ?? "",
    });
    expect(hover(ctx, path, position)?.markdown).toContain("\\!\\[x\\]\\(http://a\\) \\<b\\>");
  });
});

describe("a data logger's file", () => {
  const run = (log: string): Record<string, string> => ({
    ...withFile(`run R9 2026-04-11 job J26-014 stand TS-1 by ATH second RPE\n${log}`),
    "runs/R9.csv":
      "clock,tacho,oil,spare\n10:02,0,0,1\n10:03,2000,60,1\n10:04,2000,,1\n10:05,2000,OVR,1\n10:04:30,0,0,1\n",
  });
  const MAPS = '  map "tacho" to crank.speed/rpm\n  map "oil" to oil.pressure/psi\n';

  test("says what was read of it and what not", () => {
    const { text } = hoverAt(run(`  log from "runs/<|>R9.csv"\n${MAPS}`));
    expect(text).toContain("rows: 5, 1 of them left out");
    expect(text).toContain('time: time of the day in "clock", from 10:02, 3 min');
    expect(text).toContain("columns: 2 mapped, 1 not");
    expect(text).toContain("bad cells: 1");
    expect(text).toContain("empty cells: 1");
  });

  test("a map line shows its channel", () => {
    const { text } = hoverAt(run(`  log from "runs/R9.csv"\n${MAPS.replace("oil.pressure", "oil.<|>pressure")}`));
    expect(text).toContain('oil.pressure in psi, column "oil" of runs/R9.csv');
    expect(text).toContain("cells: 3 of 5 rows");
    expect(text).toContain("limit: min 55 psi max 85 psi while crank.speed 1400..2300 rpm");
    expect(text).toContain("over the run: 0.00 to 60.00 psi");
  });
});

describe("what a reading leads to", () => {
  const shop = (line: string, more = ""): Record<string, string> => ({
    ...withFile(`entry E8 2026-02-21 inspect job J26-014\n  air 24 C\n${more}${line}\n`),
    "type.gudgeon": TYPE.replace("  bore 98 mm\n", '  bore 98 mm\n  material piston "aluminium"\n'),
    "more.gudgeon": 'instrument MIC-S "Steel micrometer"\n  material "steel"\n',
  });

  test("its size at 20 °C, with the working and where the expansions come from", () => {
    const { text } = hoverAt(shop("  measure piston.pin[1] 23.9<|>95 mm with MIC-S"));
    // 23.995 mm x 4 K x 11.9 um/(m K) = 1.142 um, worked by hand.
    expect(text).toContain("Part at 24 C, 23.6 um/(m K): grown by 2.27 um against 20 C.");
    expect(text).toContain("23.995 mm - 0.001142 mm = 23.9938579 mm at 20 C (ISO 1).");
    expect(text).toContain("source: Callister");
  });

  test("the compression ratio of a cylinder whose chamber was poured", () => {
    const { text } = hoverAt(shop("  measure chamber.volume[1] 12<|>0 cm3"));
    // pi / 4 x 9.8^2 x 11 = 829.726 cm3; (829.726 + 120) / 120 = 7.914.
    expect(text).toContain("Ratio: (829.726 + 120) / 120 = 7.914 to 1.");
  });

  test("the sums of valve timing, once the four events are read", () => {
    const line = "  measure timing.exhaust-closes 1<|>6 deg";
    const two = "  measure timing.inlet-opens 10 deg\n";
    expect(hoverAt(shop(line, two)).text).toContain("Overlap: 10 + 16 = 26 degrees.");
    const four = `${two}  measure timing.inlet-closes 50 deg\n  measure timing.exhaust-opens 55 deg\n`;
    expect(hoverAt(shop(line, four)).text).toContain("Intake open: 10 + 180 + 50 = 240 degrees.");
  });
});

test("an engine type shows its firing order, low cylinders, volumes and piston speed with the working", () => {
  const type = TYPE.replace("engine-type Curlew-9", "engine-type Cur<|>lew-9").replace(
    "  limit oil.pressure",
    "  limit crank.speed max 2350 rpm\n  limit oil.pressure",
  );
  const { text } = hoverAt({ ...withFile(""), "type.gudgeon": type });
  expect(text).toContain("Firing order, from the layout: 1-3-5-7-9-2-4-6-8.");
  expect(text).toContain("720 / 9 = 80 degrees");
  expect(text).toContain(
    "Below the horizontal, lowest first: 5 (70 degrees below), 6 (70 degrees below), 4 (30 degrees below), 7 (30 degrees below)",
  );
  // pi / 4 x 98^2 x 110 = 829 726 mm3; 2 x 110 mm x 2350 / 60000 = 8.617 m/s.
  expect(text).toContain("Engine: 9 x 829.726 = 7467.53 cm3.");
  expect(text).toContain("= 8.617 m/s.");
});

test("a limit given as a fit shows how it comes out of the tables", () => {
  const type = TYPE.replace(
    "  limit oil.pressure",
    '  limit rod.bush-f<|>it[1..9] = rod.bush-bore - rod.bush class H7/p6 nominal 26 mm ref "5-1"\n  limit oil.pressure',
  );
  const { text } = hoverAt({ ...withFile(""), "type.gudgeon": type });
  // H7 over 18 to 30 mm: 0 and +21 um; p6: +22 and +35 um (ISO 286).
  expect(text).toContain("as written: new -0.035..-0.001 mm (H7/p6 on 26 mm)");
  expect(text).toContain("ISO 286");
  expect(text).toContain("26 H7: grade 7 is 21 um wide at this size.");
  expect(text).toContain("Deviations 22 and 35 um give 26.022 to 26.035 mm (ISO 286).");
});

test("a power line shows the power, what belongs to it and the working", () => {
  const { text } = hoverAt(
    withFile(
      "run R9 2026-04-11 job J26-014 by ATH second RPE\n  air 18 C 1009 hPa 46 %\n  power torque 30<|>0 N.m at 2000 rpm fuel 20 kg/h\n",
    ),
  );
  // 300 N.m x 2000 rpm x pi / 30000 = 62.83 kW; 4 pi x 300 / 7467.53 cm3 = 504.8 kPa; 20 kg/h / 62.83 kW = 318.3 g/kWh.
  expect(text).toContain("Power: 62.83 kW (84.26 hp) as measured");
  expect(text).toContain("No correction is named for this engine type; the power stands as measured.");
  expect(text).toContain("= 504.8 kPa.");
  expect(text).toContain("= 318.3 g/kWh");
  expect(text).toContain("never say that an engine is fit to run");
});

test("the air of a run gives density and density altitude with the working", () => {
  const { text } = hoverAt(
    withFile("run R9 2026-04-11 job J26-014 by ATH second RPE\n  air 1<|>5 C 1013.25 hPa 0 %\n"),
  );
  expect(text).toContain("Air of run R9");
  expect(text).toMatch(/1\.225/u);
});

describe("what singly comes over the years", () => {
  const years = ["2021", "2022", "2023", "2024", "2025"];
  const files = (last: string): Record<string, string> => ({
    "type.gudgeon": TYPE,
    "engine.gudgeon": `engine C9-0777 Curlew-9\n  hours tsn 100.0 h on 2020-12-01\n${years
      .map((year, i) => `  hours tsn ${200 + 100 * i}.0 h on ${year}-06-01\n`)
      .join("")}`,
    "service.gudgeon": years
      .map(
        (year, i) =>
          `job J${year} engine C9-0777 limits C\nentry E1 ${year}-01-02 inspect job J${year}\n  oil filled 9 L\nentry E2 ${year}-06-01 inspect job J${year}\n  oil sample L-${i} Fe ${20 + i} ppm\n  measure cylinder.bore[1/head] ${(98.02 + 0.004 * i + 0.0002 * (i % 2)).toFixed(4)} mm\n  compression differential supply 80 psi orifice 0.040 in warm\n  1 ${76 - 2 * i}\n`,
      )
      .join(""),
    "last.gudgeon": last,
  });

  test("an engine: compression drifts, and metals against the samples before", () => {
    const { text } = hoverAt(files("job J9 engine C9-0<|>777 limits C\n"));
    expect(text).toContain("cylinder 1, differential: 76, 74, 72, 70, 68 psi;");
    expect(text).toContain("falling");
    expect(text).toContain("Fe for each hour since the oil change");
  });

  test("a sample: for each hour since the oil was filled", () => {
    const service = files("");
    const text = service["service.gudgeon"]?.replace("Fe 24 ppm", "Fe 2<|>4 ppm") ?? "";
    // 600 h less 500 h: a quarter of a ppm for each hour.
    expect(hoverAt({ ...service, "service.gudgeon": text }).text).toContain("24 ppm / 100 h = 0.24 ppm/h.");
  });

  test("a reading: wear rate and hours left, with their interval", () => {
    const service = files("");
    const text = service["service.gudgeon"]?.replace("98.0360 mm", "98.0<|>360 mm") ?? "";
    const said = hoverAt({ ...service, "service.gudgeon": text }).text;
    expect(said).toContain("Wear by hours");
    // The readings rise by 0.004 mm each hundred hours, and what every second one has more of leaves the slope as it is.
    expect(said).toContain("through 5 readings: 0.004 mm in 100 h.");
    expect(said).toContain("Interval 0.00387 to 0.00413 mm in 100 h.");
    expect(said).toContain("more than twice the 400 h that the readings cover, so there is no forecast");
  });
});

test("the oil of a run in both units, for the run and the job", () => {
  const run = (n: number, oil: string): string =>
    `run R${n} 2026-04-1${n} job J26-014 by ATH second RPE\n  log time crank.speed/rpm\n  10:00 800\n  11:00 800\n  oil added ${oil} L\n`;
  const { text } = hoverAt(withFile(run(1, "0.2") + run(2, "0<|>.4")));
  expect(text).toContain("Rate: 0.4 L / 1 h = 0.4 L/h (0.423 US qt/h).");
  expect(text).toContain("Runs of the job so far: R1, R2");
  expect(text).toContain("Rate: 0.6 L / 2 h = 0.3 L/h");
});

test("a weighed part shows its set, and the pairs that stand opposite each other in a flat engine", () => {
  const flat =
    "engine-type Tern-4\n  layout opposed 4\nlimits Tern-4 revision A from 2025-01-01\n  limit spread piston.weight max 2 g\nengine T4-1 Tern-4\njob J77 engine T4-1 limits A\n";
  const weights =
    "  measure piston.weight[1] 40<|>1.2 g\n  measure piston.weight[2] 400.7 g\n  measure piston.weight[3] 402.4 g\n  measure piston.weight[4] 402.1 g\n";
  const { text } = hoverAt({ "flat.gudgeon": `${flat}entry E1 2026-02-19 inspect job J77\n${weights}` });
  expect(text).toContain("Weight set");
  // 402.4 - 400.7 = 1.7 g; the pairs 1-2 and 3-4 differ by 0.5 g and 0.3 g.
  expect(text).toContain("1.7 g");
  expect(text).toContain("0.5 g");
  expect(text).toContain("0.3 g");
});
