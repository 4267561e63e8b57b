/** The main story: the Curlew-9 C9-0412 through job J26-014, from receipt to dispatch, and a short service job on a Tern-4. */

import { buildStage } from "./clean-build.ts";
import { inspectStage } from "./clean-inspect.ts";
import { closeStage, runStage } from "./clean-run.ts";
import { curlewFile, ternFile } from "./engine-type-files.ts";
import { CURLEW_ROUTE, instrumentsFile, PEOPLE, SHOP, standsFile, TERN_SERVICE_ROUTE } from "./shop-files.ts";
import { members } from "./text.ts";
import type { SampleFolder } from "./write.ts";

export function writeClean(folder: SampleFolder): void {
  folder.write("shop.gudgeon", SHOP);
  folder.write("people.gudgeon", PEOPLE);
  folder.write("instruments.gudgeon", instrumentsFile(["BG-0", "RG-95", "MIC-50"]));
  folder.write("stands.gudgeon", standsFile("curlew"));
  folder.write("curlew-9.gudgeon", curlewFile());
  folder.write("tern-4.gudgeon", ternFile());
  folder.write("routes.gudgeon", `# Route cards\n\n${CURLEW_ROUTE}\n${TERN_SERVICE_ROUTE}`);
  receive(folder);
  strip(folder);
  inspectStage(folder);
  buildStage(folder);
  const stand_h = runStage(folder);
  closeStage(folder, stand_h);
  engine(folder);
  account(folder);
  tern(folder);
}

function engine(folder: SampleFolder): void {
  folder.write(
    "C9-0412.gudgeon",
    [
      "# Engine C9-0412: what is known of it apart from the job.",
      "engine C9-0412 Curlew-9",
      ...members(
        'owner "Fenland Flying Museum"',
        'plate "Curlew-9 No. 0412"',
        "",
        'hours tsn 782.2 h tso 610.4 h on 2019-03-04 "Log book 2, page 40, at receipt for J19-033"',
        'hours tsn 782.2 h tso 0 h on 2019-05-20 "Log book 2, page 41"',
        'overhauled on 2019-05-20 "Saltmarsh Engine Works, job J19-033"',
        'hours tsn 1160.0 h tso 377.8 h on 2025-06-02 "Log book 3, page 12"',
        'hours tsn 1184.3 h tso 402.1 h on 2026-02-16 "Log book 3, page 19, at receipt"',
        "",
        'fit part "CK-9120" serial "CK-88" at crankshaft since-new 782.2 h source "Fitted at build, re-used at J19-033" on 2019-05-20',
        'fit part "MB-9140" serial "MB-207" at master-bearing since-new 0 h source "Release note 3310" on 2019-05-20',
        'fit part "MG-44" serial "MG-1021" at magneto-unit[left] source "Release note 3312" on 2019-05-20',
        'fit part "MG-44" serial "MG-1034" at magneto-unit[right] source "Release note 3312" on 2019-05-20',
        "",
        'embodied B-04 on 2019-05-20 "At job J19-033"',
        "done oil-change on 2025-06-02 at tsn 1160.0 h",
        "done strainer-clean on 2025-09-11 at tsn 1176.4 h",
        "done magnetic-plug-look on 2025-09-11 at tsn 1176.4 h",
        "done valve-clearance on 2025-06-02 at tsn 1160.0 h",
        "done compression-test on 2025-06-02 at tsn 1160.0 h",
        "done magneto-points on 2025-06-02 at tsn 1160.0 h",
        "",
        "# Back in service",
        'used 1.4 h from 2026-04-27 until 2026-04-28 "Owner\'s sheet 1, first flights"',
        'used 3.1 h from 2026-04-29 until 2026-05-01 "Owner\'s sheet 1"',
      ),
    ].join("\n"),
  );
}

function receive(folder: SampleFolder): void {
  folder.write(
    "J26-014-1-receive.gudgeon",
    [
      "# Job J26-014, sheet 1: the order and the receipt.",
      "job J26-014 engine C9-0412 route top-overhaul limits C",
      ...members(
        'scope "Top overhaul; power section opened for bulletin B-07 (cam ring to revision C); run-in and stand runs"',
        'received 2026-02-16 "By road, in its own crate"',
        "wanted 2026-05-01",
        "note The museum wants the engine for its first display on 3 May",
      ),
      "",
      'entry E1 2026-02-16 10:20 receive "Receipt and identity" job J26-014',
      ...members(
        'plate "Curlew-9 No. 0412"',
        'serial crankcase "CC-0412"',
        'serial crankshaft "CK-88"',
        'serial magneto-unit[left] "MG-1021"',
        'serial magneto-unit[right] "MG-1034"',
        "hours tsn 1184.3 h tso 402.1 h",
        "",
        'received-with "Carburettor" serial "K-551"',
        'received-with "Exhaust stubs" qty 9',
        'received-with "Baffles" qty 9 "No. 4 cracked"',
        'received-with "Log books" qty 2',
        'check packing ok "Dry, desiccant still blue"',
        'check plate-and-papers ok "Plate, log book 3 and order agree"',
        folder.photo("received-front.png", "As received, from the front", "engine"),
        folder.photo("received-left.png", "As received, left side", "engine"),
        folder.photo("received-right.png", "As received, right side", "engine"),
        folder.photo("data-plate.png", "Data plate, No. 0412", "plate"),
        "labour BLK 1.5 h receive",
        "labour ATH 1 h receive",
        "sign stores BLK 2026-02-16",
        "sign fitter ATH 2026-02-16",
      ),
      "",
      'entry E2 2026-02-16 14:10 receive "Oil and turning" job J26-014',
      ...members(
        "air 14 C",
        'oil drained 9.5 L "From tank and sump, kept for the sample"',
        "oil sample L-31 Fe 31 ppm Cu 9 ppm Al 14 ppm Si 6 ppm",
        'check turning ok "By hand, plugs out, four turns; dry click at No. 5, to be looked at"',
        'check outside-look ok "Fins full, no paint burnt; baffle 4 as noted"',
        "labour ATH 1.5 h receive",
        "sign fitter ATH 2026-02-16",
      ),
    ].join("\n"),
  );
}

function strip(folder: SampleFolder): void {
  folder.write(
    "J26-014-2-strip.gudgeon",
    [
      "# Job J26-014, sheet 2: strip and wash. Everything opened here is closed on sheet 4.",
      'entry E3 2026-02-17 strip "Upper end off" job J26-014',
      ...members(
        "open rocker-covers",
        'open cylinders "Nuts cut free of wire, barrels off 1 to 9, pistons bagged by number"',
        'check nuts-and-studs ok "No stud turned; one nut at 7/4 bruised, replaced at build"',
        'defect D7 baffle[4] "Cracked 11 mm at the lower lug"',
        folder.photo("baffle-4.png", "Crack, lower lug of baffle 4", "crack"),
        folder.photo("barrels-off.png", "Barrels as they came off", "barrel"),
        "labour ATH 7.5 h strip",
        "labour JWB 7.5 h strip",
        "sign fitter JWB 2026-02-17",
      ),
      "",
      'entry E4 2026-02-18 strip "Nose case and power section" job J26-014',
      ...members(
        "open gear-case",
        'open crankcase "Halves parted on the stand, master rod drawn with No. 5"',
        "open rear-case",
        "open sump",
        'remove part "CR-B" serial "CR-311" at cam-ring scrapped "Old revision, replaced under B-07"',
        "note Cam ring shows the light pitting that B-07 speaks of, second exhaust lobe",
        folder.photo("reduction-gear.png", "Planet carrier, as opened", "gear"),
        "labour ATH 6 h strip",
        "labour HDM 6 h strip",
        "sign fitter ATH 2026-02-18",
      ),
      "",
      'entry E5 2026-02-19 strip "Wash and lay out" job J26-014',
      ...members(
        'consumable "Cleaning solvent" batch SV-220 expires 2027-03-31',
        'check galleries ok "Rodded, blown and flushed, plugs back with new washers"',
        'check lay-out ok "Parts tagged J26-014 by place"',
        "labour JWB 6.5 h strip",
        "sign fitter JWB 2026-02-19",
      ),
    ].join("\n"),
  );
}

function account(folder: SampleFolder): void {
  folder.write(
    "J26-014-account.gudgeon",
    [
      "# Rates and costs. This page never leaves the shop.",
      "account J26-014",
      ...members(
        "rate 48.00 GBP/h",
        "rate inspect 62.00 GBP/h",
        "rate running 55.00 GBP/h",
        'cost "Rings, nine sets" 612.00 GBP',
        'cost "Piston, +0.5 mm" 248.00 GBP',
        'cost "Exhaust guides, two; valve; spring" 301.50 GBP',
        'cost "Cam ring, revision C" 1840.00 GBP',
        'cost "Boring and honing, one barrel" 95.00 GBP',
        'cost "Joints and seals, set" 187.20 GBP',
        'cost "Fuel, three runs" 214.00 GBP',
      ),
    ].join("\n"),
  );
}

function tern(folder: SampleFolder): void {
  folder.write(
    "T4-0087.gudgeon",
    [
      "# The shop's own Tern-4: service job J26-009, done and released.",
      "engine T4-0087 Tern-4",
      ...members(
        'owner "Saltmarsh Engine Works"',
        'plate "Tern-4 No. 0087"',
        'hours tsn 522.3 h on 2021-06-28 "Log book 1, page 69"',
        'hours tsn 522.3 h tso 0 h on 2021-08-12 "Log book 1, page 70"',
        'hours tsn 611.0 h tso 88.7 h on 2025-08-20 "Log book 1, page 84"',
        'overhauled on 2021-08-12 "Saltmarsh Engine Works, job J21-020"',
        'fit part "TK-4100" serial "TK-19" at crankshaft since-new 522.3 h source "Re-used at J21-020" on 2021-08-12',
        'embodied B-21 on 2021-08-12 "At job J21-020"',
        "done magneto-points-4 on 2025-08-20 at tsn 611.0 h",
      ),
      "",
      "job J26-009 engine T4-0087 route service-4 limits A",
      ...members('scope "Yearly service: compressions, oil, strainer"', 'received 2026-03-05 "From our own hangar"'),
      "",
      'entry E1 2026-03-05 service "Compressions, oil and strainer" job J26-009',
      ...members(
        "hours tsn 640.5 h tso 118.2 h",
        "air 16 C",
        "compression differential supply 80 psi orifice 0.040 in warm with DC-1",
        "1  74  heard rings",
        "2  75  heard rings",
        "3  72  heard rings",
        "4  74  heard rings",
        "done compression-4",
        'oil drained 5.5 L "Warm"',
        "open strainer-cap",
        'done strainer-4 "Two flakes of carbon, no metal"',
        "torque strainer.cap 31 N.m oiled with TW-2",
        "locked strainer.cap wire",
        "close strainer-cap",
        "oil filled 6 L",
        "done oil-change-4",
        "oil sample L-30 Fe 14 ppm Cu 4 ppm Al 6 ppm",
        'check leak-check ok "Ten minutes at 1000 rpm, dry"',
        "labour HDM 4 h service",
        "sign fitter HDM 2026-03-05",
      ),
      "",
      'release 2026-03-06 J26-009 by CNO "Yearly service carried out to limits revision A; no defects left open"',
      ...members("sign certifier CNO 2026-03-06"),
    ].join("\n"),
  );
}
