/** The half-done job: a Tern-4 on the bench, with cells to fill, steps to do and names to put down. */
import { ternFile } from "./engine-type-files.ts";
import { instrumentsFile, PEOPLE, SHOP, standsFile, TERN_ROUTES } from "./shop-files.ts";
import { TERN_FEATURES } from "./tern-4.ts";
import { members, seeded } from "./text.ts";
import { type Feature, type Readings, readAll, readingLines } from "./type-data.ts";
import type { SampleFolder } from "./write.ts";

const random = seeded(87);

function feature(name: string): Feature {
  const found = TERN_FEATURES.find((each) => each.name === name);
  if (!found) throw new Error(`no feature ${name}`);
  return found;
}

function one(name: string, change?: (readings: Readings) => void): string[] {
  const readings = readAll(feature(name), random, "worn");
  change?.(readings);
  return readingLines(feature(name), readings);
}

/** Cells still to be taken. */
function open(rows: readonly string[]): (readings: Readings) => void {
  return (readings) => {
    for (const row of rows)
      readings.set(
        row,
        (readings.get(row) ?? []).map(() => Number.NaN),
      );
  };
}

function bores(): Readings {
  const readings: Readings = new Map();
  for (let cylinder = 1; cylinder <= 4; cylinder++) {
    const base = 95.016 + random() * 0.012;
    readings.set(
      String(cylinder),
      [0.014, 0.006, 0.0]
        .flatMap((level) => [level + 0.005, level])
        .map((level) => base + level + (random() - 0.5) * 0.003),
    );
  }
  return readings;
}

export function writeBench(folder: SampleFolder): void {
  folder.write("shop.gudgeon", SHOP);
  folder.write("people.gudgeon", PEOPLE);
  folder.write("instruments.gudgeon", instrumentsFile(["RG-98", "TW-3", "MIC-50", "MIC-75", "DG-1", "PLG-4", "PRO-1"]));
  folder.write("stands.gudgeon", standsFile("tern"));
  folder.write("tern-4.gudgeon", ternFile());
  folder.write("routes.gudgeon", `# Route cards\n\n${TERN_ROUTES}`);
  const bore = bores();
  bore.set(
    "4",
    (bore.get("4") ?? []).map((value, i) => (i < 2 ? value : Number.NaN)),
  );
  folder.write(
    "J26-021.gudgeon",
    [
      "# Engine T4-0133, job J26-021: on the bench on 28 April. Cells with ? are still to be taken.",
      "engine T4-0133 Tern-4",
      ...members(
        'owner "R. Haddow, Eel Pie Boatyard"',
        'plate "Tern-4 No. 0133"',
        'hours tsn 471.6 h on 2017-05-02 "Owner\'s log"',
        'hours tsn 471.6 h tso 0 h on 2017-06-14 "Owner\'s log"',
        'hours tsn 861.0 h tso 389.4 h on 2025-06-11 "Owner\'s log"',
        'hours tsn 880.1 h tso 408.5 h on 2025-11-20 "Owner\'s log"',
        'hours tsn 902.6 h tso 431.0 h on 2026-04-20 "Owner\'s log"',
        'overhauled on 2017-06-14 "Saltmarsh Engine Works, job J17-008"',
        'fit part "TK-4100" serial "TK-31" at crankshaft since-new 471.6 h source "Re-used at J17-008" on 2017-06-14',
        "done oil-change-4 on 2025-11-20 at tsn 880.1 h",
        "done strainer-4 on 2025-11-20 at tsn 880.1 h",
        "done compression-4 on 2025-06-11 at tsn 861.0 h",
        "done magneto-points-4 on 2025-06-11 at tsn 861.0 h",
      ),
      "",
      "job J26-021 engine T4-0133 route top-overhaul-4 limits A",
      ...members(
        'scope "Top overhaul; bulletin B-21"',
        'received 2026-04-20 "On the owner\'s trailer"',
        "wanted 2026-05-29",
      ),
      "",
      'entry E1 2026-04-20 receive "Receipt" job J26-021',
      ...members(
        'plate "Tern-4 No. 0133"',
        "hours tsn 902.6 h tso 431.0 h",
        'received-with "Carburettor" serial "TC-77"',
        'received-with "Baffles" qty 4',
        "check plate-and-papers ok",
        folder.photo("received.png", "As received", "engine"),
        "labour BLK 1 h receive",
        "sign stores BLK 2026-04-20",
        "sign fitter ATH 2026-04-20",
      ),
      "",
      'entry E2 2026-04-22 strip "Upper end off" job J26-021',
      ...members(
        "open rocker-covers",
        "open cylinders",
        "oil drained 5 L",
        "oil sample L-36 Fe 44 ppm Cu 12 ppm Al 18 ppm",
        "labour JWB 6 h strip",
        "sign fitter JWB 2026-04-22",
      ),
      "",
      'entry E3 2026-04-27 inspect "Barrels and pistons" job J26-021',
      ...members("air 20 C"),
      ...readingLines(feature("cylinder.bore"), bore),
      ...one("cylinder.spigot", (readings) => readings.delete("4")),
      ...one("piston.skirt"),
      ...one("piston.pin-bore"),
      ...one("piston.pin", open(["3", "4"])),
      ...one("piston.weight", (readings) => {
        for (const [row, cells] of readings)
          readings.set(
            row,
            cells.map(() => 525.2 + Number(row) * 0.6),
          );
      }),
      ...members(
        'defect D1 baffle[2] "Cracked at the upper edge, 8 mm"',
        folder.photo("baffle-2.png", "Baffle 2, upper edge", "crack"),
        "labour ATH 4 h inspect",
      ),
      "",
      'entry E4 2026-04-28 inspect "Valve gear" job J26-021',
      ...members("air 20 C", "# Guides of 3 and 4 wait for the wash; seats are cut first, then measured"),
      ...one("inlet-guide.bore", open(["3", "4"])),
      ...one("exhaust-guide.bore", open(["1", "2", "3", "4"])),
      ...one("inlet-valve.stem"),
      ...one("exhaust-valve.stem", (readings) => readings.set("2", [8.93, 8.936, 8.934])),
      ...one("inlet-valve.lip"),
      ...one("exhaust-valve.lip"),
      ...one("valve.seat", open(["1", "2", "3", "4"])),
      ...one("spring.load", (readings) => readings.set("4", [222, 221])),
      ...one("spring.free"),
      ...one("rocker.bush"),
      ...one("rocker.shaft", open(["4"])),
      ...members("note Springs and rockers still to be crack tested", "labour JWB 3.5 h inspect"),
      "",
      "# Laid out ahead for next week",
      'entry E5 2026-04-28 build "Barrels on" job J26-021',
      ...members('fit part "RS-95" qty 4 batch B51'),
      ...readingLines(
        feature("ring.gap"),
        new Map(["1", "2", "3", "4"].map((row) => [row, [Number.NaN, Number.NaN, Number.NaN]])),
      ),
      ...readingLines(
        feature("clearance.valve"),
        new Map(["1", "2", "3", "4"].map((row) => [row, [Number.NaN, Number.NaN]])),
      ),
    ].join("\n"),
  );
}
