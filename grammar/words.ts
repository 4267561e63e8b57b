/**
 * The table of words: one source for the parser, completion, highlighting and the language reference.
 *
 * Each row says which first word opens a line, in which blocks the line may stand, and the form of what follows. Forms are written in a
 * small notation that `form.ts` reads:
 *
 *     word             a keyword as it stands
 *     role:type        a captured value; the types are listed in `form.ts`
 *     role:<a|b>       one of several keywords, captured
 *     [ x ]            x may be left out
 *     ( x | y )        one of several
 *     ( x )*  ( x )+   none or more, one or more
 *     { x | y }        any of them, in any order, each at most once
 *     { x | y }+       the same, but at least one, and each may be repeated
 *
 * Header words and member words are disjoint sets, so that a reader, a search and a parser all see the blocks without counting blanks.
 * Adding a row here is all that a new line kind needs to be read, formatted, coloured, completed and listed; what it means is added in
 * `server/facts`.
 */

export type BlockKind =
  | "shop"
  | "person"
  | "instrument"
  | "stand"
  | "engine-type"
  | "limits"
  | "run-in"
  | "task"
  | "bulletin"
  | "route"
  | "alert"
  | "engine"
  | "job"
  | "entry"
  | "run"
  | "release"
  | "dispatch"
  | "account";

export interface WordRow {
  readonly word: string;
  /** "header" opens a block, "member" stands in one. */
  readonly kind: "header" | "member";
  /** Blocks in which a member may stand; for a header, empty. */
  readonly blocks: readonly BlockKind[];
  readonly form: string;
  /** One sentence: what the line says. */
  readonly says: string;
  /** Lines that are parsed in tests and printed in the reference. */
  readonly examples: readonly string[];
  /** Other spellings that serve as well (kept as typed). */
  readonly also?: readonly string[];
  /** Rows of numbers may follow this line. */
  readonly opensTable?: boolean;
}

const WORK: readonly BlockKind[] = ["entry", "run", "release", "dispatch"];
const ENTRY_RUN: readonly BlockKind[] = ["entry", "run"];
const ALL: readonly BlockKind[] = [
  "shop",
  "person",
  "instrument",
  "stand",
  "engine-type",
  "limits",
  "run-in",
  "task",
  "bulletin",
  "route",
  "alert",
  "engine",
  "job",
  "entry",
  "run",
  "release",
  "dispatch",
  "account",
];

function header(word: BlockKind, form: string, says: string, ...examples: string[]): WordRow {
  return { word, kind: "header", blocks: [], form, says, examples };
}

function member(
  word: string,
  blocks: readonly BlockKind[],
  form: string,
  says: string,
  ...examples: string[]
): WordRow {
  return { word, kind: "member", blocks, form, says, examples };
}

/** A bound on a value, as limits, tasks and run-in schedules use it. */
const INTERVAL = "every:q ( or every:q )*";

export const WORDS: readonly WordRow[] = [
  // ---- reference side: what the records are checked against -------------------------------------------------------------------
  header(
    "shop",
    "title:text",
    "Opens the one block of settings of the shop that this folder belongs to.",
    'shop "Saltmarsh Engine Works"',
  ),
  header(
    "person",
    "name:name title:text",
    "Someone who works, inspects or certifies, by short name.",
    'person ATH "Ada Thorne"',
  ),
  header(
    "instrument",
    "name:name title:text",
    "A measuring tool, gauge, wrench or sensor, by its number.",
    'instrument BG-2 "Bore gauge 50 to 100 mm"',
  ),
  header(
    "stand",
    "name:name title:text",
    "A run stand and what it measures with.",
    'stand TS-1 "Run stand, north bay"',
  ),
  header(
    "engine-type",
    "name:name [title:text]",
    "A type of engine: layout, numbering, rotation, places.",
    'engine-type Curlew-9 "Nine-cylinder radial, geared"',
  ),
  header(
    "limits",
    "type:name revision revision:name from from:date [title:text]",
    "A revision of the limits and torques of a type, in force from a date.",
    'limits Curlew-9 revision C from 2025-11-01 "Overhaul data, sheet 4"',
  ),
  header(
    "run-in",
    "type:name [variant:name]",
    "The schedule by which an engine of the type is run in.",
    "run-in Curlew-9",
  ),
  header(
    "task",
    `name:name type:name every ${INTERVAL} { first first:q ( or first:q )* | tolerance tolerance:q ( or tolerance:q )* | sign sign:name | independent:<independent> | about:text }`,
    "Recurring work on a type, due by hours, months, cycles, whichever comes first.",
    "task strainer-clean Curlew-9 every 25 h or 6 months first 5 h",
    "task oil-change Curlew-9 every 50 h tolerance 5 h",
  ),
  header(
    "bulletin",
    "name:name type:name title:text { mandatory:<mandatory> | recommended:<recommended> | optional:<optional> | by by:date | within within:q | repeat repeat:q | serials serials:text }",
    "A modification or bulletin for a type, and when it must be embodied.",
    'bulletin B-07 Curlew-9 "Cam ring to revision C" mandatory by 2026-12-31',
  ),
  header("route", "name:name [type:name]", "The order of work: steps and what each needs.", "route top-overhaul"),
  header(
    "alert",
    "name:name on:date title:text",
    "Word that parts of a batch, or certain serials, are suspect.",
    'alert A-3 2026-03-01 "Valve guides below hardness, see maker\'s letter"',
  ),

  // ---- record side: what happened ----------------------------------------------------------------------------------------------
  header("engine", "name:name type:name", "One engine, by serial number, and its type.", "engine C9-0412 Curlew-9"),
  header(
    "job",
    "name:name engine engine:name { route route:name | limits limits:name | run-in run-in:name }",
    "A job on an engine: which route and which revision of the limits it works to.",
    "job J26-014 engine C9-0412 route top-overhaul limits C",
  ),
  header(
    "entry",
    "name:name date:date [time:time] step:stepname [title:text] { job job:name | engine engine:name | at at:name hours:q }",
    "Work done on a day, within a job and a step of its route, or on an engine in service.",
    'entry E3 2026-02-19 inspect "Barrels and pistons" job J26-014',
  ),
  header(
    "run",
    "name:name date:date [time:time] { job job:name | stand stand:name | by by:name | second second:name | run-in run-in:name }",
    "A run of the engine on a stand, who ran it and who stood by.",
    "run R1 2026-04-11 job J26-014 stand TS-1 by ATH second RPE",
  ),
  header(
    "release",
    "date:date job:name by by:name statement:text [ except except:name ( , except:name )* ]",
    "The release statement of a job, and the defects that it leaves open.",
    'release 2026-04-20 J26-014 by CNO "Work in scope carried out to the data named; see exceptions" except D4',
  ),
  header(
    "dispatch",
    "date:date job:name { to to:text | by by:text | crate crate:text }",
    "The engine leaves the shop.",
    'dispatch 2026-04-25 J26-014 to "Fenland Flying Museum" by "Marsh Road Haulage" crate "SEW-31"',
  ),
  header("account", "job:name", "Rates and costs of a job; never leaves the shop.", "account J26-014"),

  // ---- shop ---------------------------------------------------------------------------------------------------------------------
  member(
    "language",
    ["shop"],
    "version:count",
    "The version of the language that the folder is written in.",
    "language 1",
  ),
  member(
    "decision",
    ["shop"],
    "rule:<guarded|simple>",
    "How a reading near its limit is judged: with the guard band of ISO 14253-1, or by the bare figure.",
    "decision guarded",
  ),
  member("money", ["shop"], "currency:name", "The currency of rates and costs.", "money GBP"),
  member(
    "stand-time",
    ["shop"],
    "rule:<counts|excluded>",
    "Whether running on the stand counts as engine hours.",
    "stand-time counts",
  ),
  member(
    "severity",
    ["shop"],
    "code:code level:<error|warning|information|hint|off> [reason:text] [by by:name on:date]",
    "Sets the severity of a finding for this shop; lowering a guarded family takes a signed concession.",
    'severity due/due-soon information "The board on the wall serves"',
  ),
  member(
    "authority",
    ["shop"],
    "act:<accept|concession|defer|release|refuse> roles:name ( , roles:name )*",
    "Which roles may accept findings, sign a concession, defer a defect, release.",
    "authority accept inspector, certifier",
  ),
  member(
    "notice",
    ["shop"],
    "span:q ( or span:q )*",
    "How long before it is due an item is announced.",
    "notice 10 h or 30 days",
  ),
  member(
    "practice",
    ["shop"],
    "name:name",
    "The record-keeping practice whose check lists the shop follows.",
    "practice eu-145",
  ),
  member("address", ["shop", "person"], "address:text", "A postal address.", 'address "Dyke Road 4, Saltmarsh"'),

  // ---- person, instrument, stand -------------------------------------------------------------------------------------------------
  member(
    "role",
    ["person"],
    "role:name from from:date { until until:date | for types:name ( , types:name )* }",
    "A role that the person holds, from and until which day (that day included).",
    "role fitter from 2024-01-08",
    "role inspector from 2024-01-08 until 2027-01-08 for Curlew-9",
  ),
  {
    ...member(
      "licence",
      ["person"],
      "number:text from from:date [ until until:date ]",
      "A licence or authorisation, with its dates.",
      'licence "SEW-03" from 2024-06-30 until 2027-06-30',
    ),
    also: ["license"],
  },
  member(
    "key",
    ["person"],
    "key:text from from:date [ until until:date ]",
    "A public key that backs the person's seals.",
    'key "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAIA" from 2026-01-01',
  ),
  member(
    "serial",
    ["instrument", "engine", "entry"],
    "[place:place] number:text",
    "A serial number: of the instrument, or of the part at a place.",
    'serial "881-204"',
    'serial crankcase "CC-0412"',
  ),
  member("range", ["instrument"], "range:range", "What the instrument can measure.", "range 50..100 mm"),
  member("resolution", ["instrument"], "value:q", "The least step that the instrument shows.", "resolution 0.001 mm"),
  member(
    "uncertainty",
    ["instrument"],
    "value:q",
    "Expanded uncertainty (k = 2), as a value or in % of the reading.",
    "uncertainty 0.003 mm",
    "uncertainty 2 %",
  ),
  member(
    "calibrated",
    ["instrument"],
    "on:date until until:date [certificate:text]",
    "A good calibration, and until when it serves (that day included).",
    'calibrated 2026-01-10 until 2027-01-10 "certificate 881"',
  ),
  member(
    "failed",
    ["instrument"],
    "on:date [reason:text]",
    "The instrument was found out at calibration; readings since its last good one must be taken again.",
    'failed 2026-05-02 "Reads 0.02 mm high"',
  ),
  member(
    "withdrawn",
    ["instrument"],
    "on:date [reason:text]",
    "Out of service from this day.",
    'withdrawn 2026-06-01 "Dropped"',
  ),
  member("length", ["instrument"], "value:q", "Of a torque wrench: drive centre to grip mark.", "length 300 mm"),
  member(
    "material",
    ["instrument", "engine-type"],
    "[feature:name] material:text",
    "What the instrument, or a feature of the type, is made of (for the correction to 20 °C).",
    'material "steel"',
    'material cylinder "steel 4140"',
  ),
  member(
    "channel",
    ["stand"],
    "place:place with instrument:name",
    "A measured quantity of the stand and the instrument behind it.",
    "channel oil.pressure with PG-3",
    "channel cht[1..9] with TC-9",
  ),
  member(
    "club",
    ["stand"],
    "name:name speeds:range at density:q",
    "A calibrated club (test propeller): the speeds and air density of its calibration.",
    "club CL-4 1200..2300 rpm at 1.225 kg/m3",
  ),
  member("point", ["stand"], "speed:q power:q", "A calibration point of the club above.", "point 2000 rpm 180 kW"),

  // ---- engine type ----------------------------------------------------------------------------------------------------------------
  member(
    "layout",
    ["engine-type"],
    "kind:<radial|inline|opposed|vee> arrangement:arrangement [angle:q]",
    "How the cylinders stand.",
    "layout radial 9",
    "layout radial 2x7",
    "layout vee 8 90 deg",
  ),
  member(
    "numbering",
    ["engine-type"],
    "sense:<clockwise|anticlockwise> from end:<front|rear>",
    "How the cylinders are numbered, number one on top, seen from which end.",
    "numbering clockwise from rear",
  ),
  member(
    "rotation",
    ["engine-type"],
    "sense:<clockwise|anticlockwise> seen from end:<front|rear>",
    "Which way the crankshaft turns, seen from which end.",
    "rotation clockwise seen from rear",
  ),
  member(
    "mounting",
    ["engine-type"],
    "angle:q",
    "How far number one leans from upright as installed.",
    "mounting 0 deg",
  ),
  member(
    "master-rod",
    ["engine-type"],
    "cylinder:count ( , cylinder:count )*",
    "Which cylinder has the master rod, a row each.",
    "master-rod 5",
  ),
  member("bore", ["engine-type"], "value:q", "Nominal bore.", "bore 98 mm"),
  member("stroke", ["engine-type"], "value:q", "Nominal stroke.", "stroke 110 mm"),
  member(
    "firing",
    ["engine-type"],
    "order:count ( order:count )+",
    "The firing order, where it is not computed.",
    "firing 1 3 2 4",
  ),
  member(
    "correction",
    ["engine-type"],
    "( rule:name | maker source:text dry dry:q air air:q powers pressure:number temperature:number loss loss:number from least:number until greatest:number )",
    "How power on the stand is corrected to reference air: `iso-1585`, `sae-j1349-1990`, `sae-j607` or `none`, by the maker's own formula ((1 + loss) x pressure ratio ^ power x temperature ratio ^ power - loss, within a range of the factor), or not at all, which holds where no line stands.",
    "correction iso-1585",
    'correction maker "Handbook, page 40" dry 99 kPa air 25 C powers 1.0 0.5 loss 0.18 from 0.93 until 1.07',
  ),
  member(
    "lock-check",
    ["engine-type"],
    "after after:q standing",
    "After how long standing the hydraulic-lock check is due before a start.",
    "lock-check after 4 h standing",
  ),
  member(
    "places",
    ["engine-type"],
    "( place:place )+ [title:text]",
    "Which places of a feature exist.",
    'places cylinder[1..9] "Barrels"',
    "places cylinder.nut[1..9/1..12] valve[1..9/inlet,exhaust]",
  ),
  member(
    "life",
    ["engine-type"],
    "part:text life:q ( or life:q )*",
    "A life-limited part and its life.",
    'life "CS-100" 2000 h or 12 years',
  ),

  // ---- limits -----------------------------------------------------------------------------------------------------------------------
  member(
    "limit",
    ["limits"],
    "[stat:<taper|out-of-round|mean|spread>] place:place [ = formula:formula ] { bare:bounds | new new:bounds | wear wear:bounds | size size:q | while condition:place while:range | state:<hot|cold> | class class:ref nominal nominal:q | ref ref:text }+",
    "What a feature may measure: new, in wear, at an oversize, under a condition; new also by an ISO 286 class or fit on a nominal size.",
    'limit cylinder.bore[1..9] new 98.000..98.022 mm wear max 98.070 mm ref "4-2"',
    "limit taper cylinder.bore wear max 0.030 mm",
    "limit piston.fit[1..9] = greatest cylinder.bore - greatest piston.skirt new 0.105..0.142 mm wear max 0.230 mm",
    "limit oil.pressure min 55 psi max 85 psi while crank.speed 1400..2300 rpm",
    "limit rod.bush-bore[1..9] class H7 nominal 26 mm wear max 26.040 mm",
    "limit rod.bush-fit[1..9] = rod.bush-bore - rod.bush class H7/p6 nominal 26 mm",
  ),
  member(
    "stretch",
    ["limits"],
    "place:place by feature:place [ ref ref:text ]",
    "A fastener is tightened by its stretch, not by torque; the feature is what is measured, and a limit of its own says how much.",
    'stretch rod.bolt[1..9/1..2] by rod.bolt-stretch ref "6-2"',
  ),
  member(
    "compression-limit",
    ["limits"],
    "method:<differential|direct> { supply supply:q | orifice orifice:q | state:<hot|warm|cold> | min min:q | spread spread:q | ref ref:text }",
    "How compression is tested and what it must show.",
    'compression-limit differential supply 80 psi orifice 0.040 in warm min 60 psi spread 15 psi ref "4-9"',
  ),
  member(
    "magneto-limit",
    ["limits"],
    "{ drop drop:q | split split:q | at at:q | ref ref:text }",
    "Greatest drop on one magneto, and greatest difference between the two.",
    "magneto-limit drop 100 rpm split 40 rpm at 1700 rpm",
  ),

  // ---- run-in -----------------------------------------------------------------------------------------------------------------------
  member(
    "start",
    ["run-in"],
    "channel:place bound:bounds within within:q",
    "What a channel must show soon after start.",
    "start oil.pressure min 40 psi within 30 s",
  ),
  member(
    "warm",
    ["run-in"],
    "channel:place bound:bounds before condition:place limit:q",
    "What a channel must show before the engine is loaded.",
    "warm oil.temp min 40 C before crank.speed 1200 rpm",
  ),
  member("cool", ["run-in"], "channel:place bound:bounds", "How fast a channel may fall.", "cool cht max 20 C/min"),
  member(
    "step",
    ["run-in", "route"],
    "name:stepname { for for:q at condition:place at:range ( channel:place bound:bounds )* | after after:stepname ( , after:stepname )* | needs need:need ( ; need:need )* }",
    "A step of a run-in schedule (how long, at what speed, under which bounds) or of a route (after which steps, and what it needs).",
    "step 1 for 10 min at crank.speed 700..900 rpm cht max 160 C",
    "step inspect needs limits wear cylinder, piston; sign fitter; sign inspector independent",
  ),

  // ---- alert --------------------------------------------------------------------------------------------------------------------------
  member(
    "suspect",
    ["alert"],
    "part:text { batch batch:name | serials serials:text ( , serials:text )* }",
    "The parts that the alert is about.",
    'suspect "CV-2201-B" batch B71',
  ),

  // ---- engine -------------------------------------------------------------------------------------------------------------------------
  member("owner", ["engine"], "owner:text", "Who the engine belongs to.", 'owner "Fenland Flying Museum"'),
  member("plate", ["engine", "entry"], "plate:text", "What the data plate says.", 'plate "Curlew-9 No. 0412"'),
  member(
    "hours",
    ["engine", "entry", "dispatch"],
    "( counter:word value:q )+ [ on on:date ] [source:text]",
    "Running hours by counter: tsn since new, tso since overhaul; also cycles or landings.",
    "hours tsn 1184.3 h tso 402.1 h on 2026-02-16",
  ),
  member(
    "meter",
    ["engine", "entry", "run"],
    "name:name value:q [ on on:date ]",
    "What an hour meter or counter shows.",
    "meter tacho 312.4 h on 2026-02-16",
  ),
  member(
    "used",
    ["engine"],
    "value:q from from:date until until:date [source:text]",
    "Hours run in service between two days.",
    "used 12.5 h from 2026-05-01 until 2026-08-31",
  ),
  member(
    "overhauled",
    ["engine", "entry"],
    "[ on on:date ] [about:text]",
    "The engine was overhauled: time since overhaul starts again from nothing.",
    'overhauled on 2019-05-20 "Marsh Aero, job 19-33"',
  ),

  // ---- job ------------------------------------------------------------------------------------------------------------------------------
  member(
    "scope",
    ["job"],
    "scope:text",
    "What was ordered.",
    'scope "Top overhaul, cam ring to revision C, stand run"',
  ),
  member(
    "received",
    ["job"],
    "on:date [about:text]",
    "When the engine came in, and how.",
    'received 2026-02-16 "By road, in its own crate"',
  ),
  member("wanted", ["job"], "by:date", "The day by which the owner wants it back.", "wanted 2026-05-01"),

  // ---- entries and runs -------------------------------------------------------------------------------------------------------------------
  member(
    "amends",
    ["entry"],
    "ref:ref reason:text",
    "This entry corrects an earlier one; what was written stays.",
    'amends E3 "Digits of cylinder 4 transposed"',
  ),
  member(
    "air",
    ENTRY_RUN,
    "value:q ( value:q )*",
    "Air temperature, pressure and humidity.",
    "air 24 C",
    "air 18 C 1009 hPa 46 %",
  ),
  member(
    "with",
    ["entry"],
    "with:name [ set on standard:name ]",
    "The instrument that serves for the lines below, until the next such line.",
    "with MIC-100",
    "with BG-2 set on RG-98",
  ),
  {
    ...member(
      "grid",
      ["entry"],
      "head:column ( cell:colname )* { with with:name | set on standard:name | size size:q | state:<hot|cold> | by by:name }",
      "A table of readings: a row each place, a column each level, axis or sub-place.",
      "grid cylinder.bore/mm head.thrust head.axial skirt.thrust skirt.axial with BG-2 set on RG-98",
    ),
    opensTable: true,
  },
  member(
    "measure",
    ENTRY_RUN,
    "place:place value:value { at at:name | with with:name | set on standard:name | size size:q | state:<hot|cold> | by by:name | about:text }",
    "One reading.",
    "measure piston.skirt[1] 97.889 mm",
    "measure rocker.gap[1..9] ? cold",
    "measure crank.web go with PLG-4",
  ),
  {
    ...member(
      "torque",
      ["limits", "entry"],
      "place:place value:bounds { lube:<oiled|dry> | compound compound:text | with with:name | adapter adapter:q on length:q [ angle angle:q ] | set set:q | drag drag:q | locking locking:name | retorque:<retorque> | ref ref:text | by by:name }",
      "In limits: the torque of a fastener. In an entry: the torque at the fastener as done; the dial reading is `set`.",
      'torque cylinder.nut[1..9/1..12] 38..42 N.m oiled ref "4-9"',
      "torque cylinder.nut[1..9/1..12] 40 N.m oiled with TW-1 adapter 50 mm on 300 mm set 34.3 N.m",
    ),
  },
  member(
    "locked",
    ["entry"],
    "place:place method:name [about:text]",
    "A fastener was locked, and how.",
    'locked cylinder.nut[1..9/1..12] wire "0.8 mm, double"',
  ),
  member(
    "fit",
    ["engine", "entry"],
    "[ part ] number:text { serial serial:text | qty qty:count | batch batch:name | source source:text | at at:place | life life:q | since-new since-new:q | used:<used> | on on:date }",
    "A part fitted: number, serial or batch, where it came from, where it went.",
    'fit part "CV-2201-B" qty 9 batch B77 source "release note 5512"',
    'fit "PN-88" serial "P-311" at piston[3] source "stock, cert 20-114"',
  ),
  member(
    "remove",
    ["entry"],
    "[ part ] number:text { serial serial:text | qty qty:count | at at:place | since-new since-new:q | scrapped:<scrapped> | about:text }",
    "A part taken off.",
    'remove "PN-88" serial "P-207" at piston[3] scrapped "Cracked in the ring land"',
  ),
  member(
    "move",
    ["entry"],
    "from:place to to:place",
    "A part went from one place to another; its readings go with it.",
    "move piston[3] to piston[5]",
  ),
  member(
    "rework",
    ["entry"],
    "place:place { to size size:q | about:text }",
    "A part was reworked, with its new size where it has one.",
    'rework cylinder.bore[3] to size +0.5 mm "Bored and honed"',
  ),
  member(
    "defect",
    ENTRY_RUN,
    "name:name place:place about:text",
    "Something found wrong, by number and place.",
    'defect D1 baffle[4] "Cracked at the lower lug"',
  ),
  member(
    "rectify",
    ["entry"],
    "defect:ref about:text",
    "A defect was put right.",
    'rectify D1 "Stop-drilled and welded, dye check clear"',
  ),
  member(
    "defer",
    ["entry"],
    "defect:ref until ( until:date [ or limit:q ] | limit:q ) by by:name on:date reason:text",
    "A defect was put off, up to a limit, by someone who may.",
    'defer D4 until 2026-12-31 or 50 h by CNO 2026-04-12 "Cosmetic, no load on the lug"',
  ),
  member(
    "concession",
    ["entry"],
    "name:name of of:ref [place:place] by by:name on:date reason:text",
    "A departure from the limits that someone with authority allows: of a defect, a finding, or a place's reading.",
    'concession N1 of E3 cylinder.bore[6] by CNO 2026-03-02 "0.004 over wear, within maker\'s letter 14"',
  ),
  member(
    "accept",
    ["entry"],
    "code:code ref:ref [place:place] by by:name on:date reason:text",
    "A finding is accepted: which, where, by whom, when and why.",
    'accept limit/not-proven E3 cylinder.bore[3] by RPE 2026-04-12 "Re-measured on the air gauge, sheet 12"',
  ),
  member(
    "refuse",
    ["entry"],
    "role:name by:name on:date ref:ref reason:text",
    "Someone who was asked to sign refused, and why.",
    'refuse inspector RPE 2026-04-12 E9 "Nut 3/7 not witnessed"',
  ),
  member(
    "answer",
    ["entry"],
    "ref:ref about:text",
    "What was done about a refusal.",
    'answer E9 "Nut 3/7 torqued again before RPE"',
  ),
  member(
    "open",
    ["entry"],
    "what:stepname [about:text]",
    "Something was opened that must be closed again.",
    "open gear-case",
  ),
  member("close", ["entry"], "what:stepname [about:text]", "Something that was opened is closed.", "close gear-case"),
  member(
    "check",
    WORK,
    "name:stepname [place:place] result:<ok|fault> { with with:name | by by:name | about:text }",
    "A check and its result.",
    'check magnetic-plug ok "Light fuzz"',
    'check hydraulic-lock ok "By hand, two full turns, 4 5 6 7 drained"',
  ),
  member(
    "crack-test",
    ["entry"],
    "place:place method:name result:<ok|fault> [about:text]",
    "A part was tested for cracks, and by which method.",
    "crack-test crankshaft magnetic ok",
  ),
  {
    ...member(
      "compression",
      ["entry"],
      "method:<differential|direct> { supply supply:q | orifice orifice:q | state:<hot|warm|cold> | with with:name | unit unit:unitword }",
      "A table of compressions: a row each cylinder, and where the air was heard.",
      "compression differential supply 80 psi orifice 0.040 in warm with DC-1",
      "compression direct warm with CG-2 unit bar",
    ),
    opensTable: true,
  },
  member(
    "done",
    ["engine", "entry"],
    "task:name { on on:date | at counter:name hours:q | about:text }",
    "A recurring task was done.",
    "done strainer-clean",
    "done oil-change on 2025-06-02 at tsn 1160.0 h",
  ),
  member(
    "embodied",
    ["engine", "entry"],
    "bulletin:name { on on:date | about:text }",
    "A bulletin was embodied.",
    'embodied B-07 "Ring CR-C, batch B80"',
  ),
  member(
    "oil",
    ENTRY_RUN,
    "( sample sample:name ( element:word value:q )+ | what:<added|drained|filled> value:q ) [about:text]",
    "Oil added, drained, filled, or a sample and what it showed.",
    "oil added 0.4 L",
    "oil sample L-33 Fe 22 ppm Cu 6 ppm Al 9 ppm",
  ),
  member("fuel", ["run"], "value:q [about:text]", "Fuel used.", "fuel 38 L"),
  member(
    "magneto",
    ["run"],
    "left left:q right right:q [ at at:q ]",
    "Speed lost on each magneto.",
    "magneto left 65 rpm right 70 rpm at 1700 rpm",
  ),
  member(
    "power",
    ["run"],
    "( arm arm:q force force:q | torque torque:q | club club:name ) at at:q { fuel fuel:q | density density:q }",
    "Power at a speed: from the force at the end of a torque arm, from the torque, or from the calibrated club; with the fuel flow, and the density of the fuel where it is a volume.",
    "power club CL-4 at 2000 rpm fuel 52 L/h density 0.72 kg/L",
    "power arm 0.75 m force 820 N at 2000 rpm",
  ),
  {
    ...member(
      "log",
      ["run"],
      "( time [ with with:name ] ( column:column )+ | elapsed:column ( column:column )+ | from file:text [digest:digest] )",
      "A log of the run: its columns, with rows below; or a data logger's file.",
      "log time crank.speed/rpm oil.pressure/psi oil.temp/C cht[1..9]/C",
      "log elapsed/s crank.speed/rpm oil.pressure/psi",
      'log from "runs/R1.csv" sha256:0000000000000000000000000000000000000000000000000000000000000000',
    ),
    opensTable: true,
  },
  member(
    "map",
    ["run"],
    "heading:text to ( what:<time> | column:column )",
    "Which column of the logger's file is which channel, or the time; where none says, its first column is the time.",
    'map "head temp 1, deg F" to cht[1]/F',
    'map "clock" to time',
    'map "t, ms" to elapsed/ms',
  ),
  member(
    "date",
    ["run"],
    "date:date",
    "The rows below are of this day (a log that crosses midnight).",
    "date 2026-04-12",
  ),
  member("standing", ["run"], "value:q", "How long the engine had stood before this start.", "standing 14 h"),
  member(
    "photo",
    [...WORK, "job", "engine"],
    "path:text caption:text [digest:digest]",
    "A picture, its caption and the digest of its bytes.",
    'photo "photos/baffle-4.jpg" "Crack, lower lug"',
  ),
  member(
    "sign",
    WORK,
    "role:name person:name on:date [time:time] [ seal seal:digest ]",
    "Someone signs what stands above, in a role; a seal fixes the text.",
    "sign fitter ATH 2026-02-19",
  ),
  {
    ...member("labour", ENTRY_RUN, "person:name value:q [kind:needword]", "Time worked.", "labour ATH 3.5 h inspect"),
    also: ["labor"],
  },
  member(
    "consumable",
    ["entry"],
    "title:text { batch batch:name | expires expires:date }",
    "A consumable used, with batch and shelf life.",
    'consumable "Jointing compound" batch JC-11 expires 2026-09-30',
  ),
  member(
    "received-with",
    ["entry"],
    "title:text { qty qty:count | serial serial:text | about:text }",
    "Something that came with the engine.",
    'received-with "Carburettor" serial "K-551"',
  ),
  member(
    "packed",
    ["dispatch"],
    "title:text { qty qty:count | serial serial:text | about:text }",
    "Something that goes in the crate.",
    'packed "Exhaust stubs" qty 9',
  ),

  // ---- account -----------------------------------------------------------------------------------------------------------------------------
  member(
    "rate",
    ["account"],
    "[kind:needword] value:q",
    "What an hour of a kind of work costs; the plain line serves for all others.",
    "rate 48.00 GBP/h",
    "rate inspect 62.00 GBP/h",
  ),
  member("cost", ["account"], "title:text value:q", "A cost other than labour.", 'cost "Valve guides, set" 410.00 GBP'),

  // ---- everywhere ----------------------------------------------------------------------------------------------------------------------------
  member(
    "note",
    ALL,
    "",
    "Free text to the end of the line; nothing in it is read.",
    "note The barrels were stored in oil paper since 1988 # and this belongs to the note",
  ),
];

/** The form of a table row, which has no first word: a label or a time, then cells. */
export const ROW_FORM = "label:rowlabel ( cell:cell )* [ heard ( where:name )+ ] [about:text]";
