/**
 * What the lines of a block say, as plain data: the vocabulary of every rule, total, feature and report.
 *
 * Nothing here holds a position in a file. A fact knows its line as the n-th line with content of its block (`at`), so that moving a block,
 * commenting, spacing or formatting lines and adding notes changes no fact; columns are worked out when something is shown.
 */
import type { BlockKind } from "../../grammar/words.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import type { Unit } from "../quantity/units.ts";
import type { PlaceSet } from "./place.ts";

/**
 * A line of a block: which one, counting lines with content (no blank lines, comments or notes) from the header, which is 0.
 * Of two facts of one block the one with the smaller `at` stands above the other.
 */
export type At = number;
/** Of notes, which are not counted: one past any line that a block may have. */
export const AT_NOWHERE: At = 0x3fffffff;

export interface Fact {
  readonly at: At;
}

/** A slip of spelling or grammar in one line. Columns are within the line. */
export interface Problem extends Fact {
  /** Which rule of the `syntax` family words it. */
  readonly what: string;
  readonly from: number;
  readonly to: number;
  /** What the message needs: the word, the unit, what was expected. */
  readonly data: readonly string[];
}

/** Bounds as written; an end that is missing is open. */
export interface Bounds {
  readonly low: Measure | undefined;
  readonly high: Measure | undefined;
  /** As written, for messages. */
  readonly text: string;
}

// ---- blocks ------------------------------------------------------------------------------------------------------------------------

export interface BlockBase {
  readonly kind: BlockKind | "unnamed" | "preface";
  /** The short name, `""` where the header gives none. */
  readonly name: string;
  /** Unique within the shop: `person/ATH`, `J26-014/E3`, `limits/Curlew-9/C`. */
  readonly ref: string;
  readonly title: string;
  /** The header line could not be read to its end. */
  readonly headerBroken: boolean;
  /** Words of members that could not be read; rules about something missing stay quiet where such a line may be what they miss. */
  readonly unread: readonly string[];
  readonly problems: readonly Problem[];
}

export interface Named extends Fact { readonly name: string }

export interface ShopBlock extends BlockBase {
  readonly kind: "shop";
  readonly language: number | undefined;
  readonly decision: "guarded" | "simple";
  readonly money: string;
  readonly standTime: "counts" | "excluded";
  readonly severities: readonly SeverityLine[];
  readonly authorities: readonly (Fact & { readonly act: Act; readonly roles: readonly string[] })[];
  readonly notices: readonly Measure[];
  readonly practice: string;
}
export type Act = "accept" | "concession" | "defer" | "release" | "refuse";
export type Severity = "error" | "warning" | "information" | "hint";
export interface SeverityLine extends Fact {
  readonly code: string;
  readonly level: Severity | "off";
  readonly reason: string;
  readonly by: string;
  readonly on: CivilDate | undefined;
}

export interface Dated { readonly from: CivilDate; readonly until: CivilDate | undefined }
export interface PersonBlock extends BlockBase {
  readonly kind: "person";
  readonly roles: readonly (Fact & Dated & { readonly role: string; readonly types: readonly string[] })[];
  readonly licences: readonly (Fact & Dated & { readonly number: string })[];
  readonly keys: readonly (Fact & Dated & { readonly key: string })[];
}

export interface InstrumentBlock extends BlockBase {
  readonly kind: "instrument";
  readonly serial: string;
  readonly range: Bounds | undefined;
  readonly resolution: Measure | undefined;
  /** Expanded, k = 2; a unit of dimension `ratio` means a share of the reading. */
  readonly uncertainty: Measure | undefined;
  readonly calibrations: readonly (Fact & { readonly on: CivilDate; readonly until: CivilDate; readonly certificate: string })[];
  readonly failures: readonly (Fact & { readonly on: CivilDate; readonly reason: string })[];
  readonly withdrawn: (Fact & { readonly on: CivilDate; readonly reason: string }) | undefined;
  readonly length: Measure | undefined;
  readonly material: string;
}

export interface StandBlock extends BlockBase {
  readonly kind: "stand";
  readonly channels: readonly (Fact & { readonly place: PlaceSet; readonly instrument: string })[];
  readonly clubs: readonly (Fact & { readonly name: string; readonly speeds: Bounds; readonly density: Measure; readonly points: readonly { readonly speed: Measure; readonly power: Measure }[] })[];
}

export interface EngineTypeBlock extends BlockBase {
  readonly kind: "engine-type";
  readonly layout: (Fact & { readonly arrangement: "radial" | "inline" | "opposed" | "vee"; readonly count: string; readonly angle: Measure | undefined }) | undefined;
  readonly numbering: { readonly sense: "clockwise" | "anticlockwise"; readonly end: "front" | "rear" } | undefined;
  readonly rotation: { readonly sense: "clockwise" | "anticlockwise"; readonly end: "front" | "rear" } | undefined;
  readonly mounting: Measure | undefined;
  readonly masterRods: readonly number[];
  readonly bore: Measure | undefined;
  readonly stroke: Measure | undefined;
  readonly firing: (Fact & { readonly order: readonly number[] }) | undefined;
  readonly lockCheckAfter: Measure | undefined;
  readonly places: readonly (Fact & { readonly place: PlaceSet; readonly title: string })[];
  readonly lives: readonly (Fact & { readonly part: string; readonly lives: readonly Measure[] })[];
  readonly materials: readonly (Fact & { readonly feature: string; readonly material: string })[];
}

export type Statistic = "value" | "taper" | "out-of-round" | "mean" | "spread";
export interface FormulaTerm { readonly sign: 1 | -1; readonly factor: number; readonly stat: "greatest" | "least" | "mean" | "each"; readonly place: PlaceSet }
export interface LimitLine extends Fact {
  readonly stat: Statistic;
  readonly place: PlaceSet;
  /** Terms of the formula whose result is limited; empty for a reading's own limit. */
  readonly formula: readonly FormulaTerm[];
  readonly bare: Bounds | undefined;
  readonly newLimits: Bounds | undefined;
  readonly wearLimits: Bounds | undefined;
  readonly size: Measure | undefined;
  readonly condition: { readonly channel: PlaceSet; readonly range: Bounds } | undefined;
  readonly state: "" | "hot" | "cold";
  readonly reference: string;
}
export interface TorqueLimit extends Fact {
  readonly place: PlaceSet;
  readonly bounds: Bounds;
  /** `oiled`, `dry`, or the compound's name; "" where not said. */
  readonly lubrication: string;
  readonly locking: string;
  readonly retorque: boolean;
  readonly reference: string;
}
export interface CompressionLimit extends Fact {
  readonly method: "differential" | "direct";
  readonly supply: Measure | undefined;
  readonly orifice: Measure | undefined;
  readonly state: "" | "hot" | "warm" | "cold";
  readonly least: Measure | undefined;
  readonly spread: Measure | undefined;
  readonly reference: string;
}
export interface MagnetoLimit extends Fact { readonly drop: Measure | undefined; readonly split: Measure | undefined; readonly speed: Measure | undefined; readonly reference: string }
export interface LimitsBlock extends BlockBase {
  readonly kind: "limits";
  readonly type: string;
  readonly revision: string;
  readonly from: CivilDate | undefined;
  readonly limits: readonly LimitLine[];
  readonly torques: readonly TorqueLimit[];
  readonly compressions: readonly CompressionLimit[];
  readonly magnetos: readonly MagnetoLimit[];
}

export interface RunInBlock extends BlockBase {
  readonly kind: "run-in";
  readonly type: string;
  readonly starts: readonly (Fact & { readonly channel: PlaceSet; readonly bounds: Bounds; readonly within: Measure })[];
  readonly warms: readonly (Fact & { readonly channel: PlaceSet; readonly bounds: Bounds; readonly condition: PlaceSet; readonly limit: Measure })[];
  readonly cools: readonly (Fact & { readonly channel: PlaceSet; readonly bounds: Bounds })[];
  readonly steps: readonly (Fact & { readonly name: string; readonly length: Measure; readonly condition: PlaceSet; readonly range: Bounds; readonly bounds: readonly { readonly channel: PlaceSet; readonly bounds: Bounds }[] })[];
}

export interface TaskBlock extends BlockBase {
  readonly kind: "task";
  readonly type: string;
  readonly every: readonly Measure[];
  readonly first: readonly Measure[];
  readonly tolerance: readonly Measure[];
  readonly sign: string;
  readonly independent: boolean;
  readonly about: string;
}
export interface BulletinBlock extends BlockBase {
  readonly kind: "bulletin";
  readonly type: string;
  readonly force: "mandatory" | "recommended" | "optional";
  readonly by: CivilDate | undefined;
  readonly within: Measure | undefined;
  readonly repeat: Measure | undefined;
  readonly serials: string;
}
export type Need =
  | { readonly kind: "photo"; readonly count: number }
  | { readonly kind: "limits"; readonly which: "wear" | "new"; readonly features: readonly string[] }
  | { readonly kind: "torque"; readonly features: readonly string[] /* empty: all */ }
  | { readonly kind: "sign"; readonly role: string; readonly independent: boolean }
  | { readonly kind: "run-in"; readonly type: string }
  | { readonly kind: "no-open-defect" }
  | { readonly kind: "evidence"; readonly name: string /* a check, a task done, `compression`, `locking` */ };
export interface RouteStep extends Fact { readonly name: string; readonly after: readonly string[]; readonly needs: readonly Need[] }
export interface RouteBlock extends BlockBase { readonly kind: "route"; readonly type: string; readonly steps: readonly RouteStep[] }
export interface AlertBlock extends BlockBase {
  readonly kind: "alert";
  readonly on: CivilDate | undefined;
  readonly suspects: readonly (Fact & { readonly part: string; readonly batch: string; readonly serials: readonly string[] })[];
}

// ---- record side --------------------------------------------------------------------------------------------------------------------

export interface HoursLine extends Fact { readonly counters: readonly { readonly name: string; readonly value: Measure }[]; readonly on: CivilDate | undefined; readonly source: string }
export interface MeterLine extends Fact { readonly name: string; readonly value: Measure; readonly on: CivilDate | undefined }
export interface DoneLine extends Fact { readonly task: string; readonly on: CivilDate | undefined; readonly counter: string; readonly hours: Measure | undefined; readonly about: string }
export interface EmbodiedLine extends Fact { readonly bulletin: string; readonly on: CivilDate | undefined; readonly about: string }
export interface FitLine extends Fact {
  readonly part: string; readonly serial: string; readonly quantity: number; readonly batch: string; readonly source: string;
  readonly place: PlaceSet | undefined; readonly life: Measure | undefined; readonly sinceNew: Measure | undefined; readonly used: boolean; readonly on: CivilDate | undefined;
}
export interface SerialLine extends Fact { readonly place: PlaceSet | undefined; readonly number: string }
export interface PhotoLine extends Fact { readonly path: string; readonly caption: string; readonly digest: string }

export interface EngineBlock extends BlockBase {
  readonly kind: "engine";
  readonly type: string;
  readonly owner: string;
  readonly plate: string;
  readonly serials: readonly SerialLine[];
  readonly hours: readonly HoursLine[];
  readonly meters: readonly MeterLine[];
  readonly used: readonly (Fact & { readonly value: Measure; readonly from: CivilDate; readonly until: CivilDate; readonly source: string })[];
  readonly overhauled: readonly (Fact & { readonly on: CivilDate | undefined; readonly about: string })[];
  readonly done: readonly DoneLine[];
  readonly embodied: readonly EmbodiedLine[];
  readonly fits: readonly FitLine[];
  readonly photos: readonly PhotoLine[];
}
export interface JobBlock extends BlockBase {
  readonly kind: "job";
  readonly engine: string;
  readonly route: string;
  readonly limits: string;
  readonly runIn: string;
  readonly scope: string;
  readonly received: (Fact & { readonly on: CivilDate }) | undefined;
  readonly wanted: CivilDate | undefined;
  readonly photos: readonly PhotoLine[];
}

/** One reading at one place. */
export interface Reading extends Fact {
  readonly feature: string;
  /** Labels joined by `/`; row label first, then the column of a grid. */
  readonly path: string;
  readonly result: "value" | "below" | "go" | "no-go" | "todo" | "none" | "bad";
  /** For `value`, and the bound for `below`. */
  readonly measure: Measure | undefined;
  /** Which cell of the row, for tables; -1 for a `measure` line. */
  readonly cell: number;
  readonly instrument: string;
  readonly standard: string;
  readonly size: Measure | undefined;
  readonly state: "" | "hot" | "cold";
  readonly by: string;
}
export interface TorqueLine extends Fact {
  readonly place: PlaceSet;
  readonly value: Measure;
  readonly lubrication: string;
  readonly instrument: string;
  readonly adapter: { readonly extension: Measure; readonly length: Measure; readonly angle: Measure | undefined } | undefined;
  readonly setting: Measure | undefined;
  readonly drag: Measure | undefined;
  readonly retorque: boolean;
  readonly by: string;
}
export interface LockedLine extends Fact { readonly place: PlaceSet; readonly method: string }
export interface RemoveLine extends Fact { readonly part: string; readonly serial: string; readonly quantity: number; readonly place: PlaceSet | undefined; readonly scrapped: boolean; readonly about: string }
export interface MoveLine extends Fact { readonly from: PlaceSet; readonly to: PlaceSet }
export interface ReworkLine extends Fact { readonly place: PlaceSet; readonly size: Measure | undefined; readonly about: string }
export interface DefectLine extends Fact { readonly name: string; readonly place: PlaceSet; readonly about: string }
export interface RectifyLine extends Fact { readonly defect: string; readonly about: string }
export interface DeferLine extends Fact { readonly defect: string; readonly until: CivilDate | undefined; readonly limit: Measure | undefined; readonly by: string; readonly on: CivilDate; readonly reason: string }
export interface ConcessionLine extends Fact { readonly name: string; readonly of: string; readonly place: PlaceSet | undefined; readonly by: string; readonly on: CivilDate; readonly reason: string }
export interface AcceptLine extends Fact { readonly code: string; readonly ref: string; readonly place: PlaceSet | undefined; readonly by: string; readonly on: CivilDate; readonly reason: string }
export interface RefuseLine extends Fact { readonly role: string; readonly by: string; readonly on: CivilDate; readonly ref: string; readonly reason: string }
export interface AnswerLine extends Fact { readonly ref: string; readonly about: string }
export interface OpenCloseLine extends Fact { readonly what: string; readonly opens: boolean }
export interface CheckLine extends Fact { readonly name: string; readonly place: PlaceSet | undefined; readonly ok: boolean; readonly about: string; readonly instrument: string; readonly by: string; /** For runs: how many log rows stand above it (0: before the log). */ readonly afterRows: number }
export interface CrackTestLine extends Fact { readonly place: PlaceSet; readonly method: string; readonly ok: boolean }
export interface CompressionRow extends Fact { readonly cylinder: string; readonly result: Reading["result"]; readonly measure: Measure | undefined; readonly heard: readonly string[] }
export interface CompressionTable extends Fact {
  readonly method: "differential" | "direct";
  readonly supply: Measure | undefined;
  readonly orifice: Measure | undefined;
  readonly state: "" | "hot" | "warm" | "cold";
  readonly instrument: string;
  readonly rows: readonly CompressionRow[];
}
export interface OilLine extends Fact { readonly what: "added" | "drained" | "filled"; readonly value: Measure; readonly about: string }
export interface OilSample extends Fact { readonly name: string; readonly metals: readonly { readonly element: string; readonly value: Measure }[] }
export interface FuelLine extends Fact { readonly value: Measure }
export interface MagnetoLine extends Fact { readonly left: Measure; readonly right: Measure; readonly speed: Measure | undefined }
export interface SignLine extends Fact {
  readonly role: string; readonly person: string; readonly on: CivilDate; readonly time: number | undefined;
  /** As written, `1:<64 hex>`, or "". */
  readonly seal: string;
  /** SHA-256 (hex) over the canonical text of the block above this line; only worked out where a seal is written. */
  readonly textDigest: string;
}
export interface LabourLine extends Fact { readonly person: string; readonly value: Measure; readonly work: string }
export interface ConsumableLine extends Fact { readonly title: string; readonly batch: string; readonly expires: CivilDate | undefined }
export interface GoodsLine extends Fact { readonly title: string; readonly quantity: number; readonly serial: string }
export interface AirLine extends Fact { readonly temperature: Measure | undefined; readonly pressure: Measure | undefined; readonly humidity: Measure | undefined }
export interface AmendsLine extends Fact { readonly ref: string; readonly reason: string }

export interface LogColumn {
  readonly place: string;
  readonly feature: string;
  readonly path: string;
  readonly unit: Unit | undefined;
  readonly unitText: string;
  /** Which column word of the heading it comes from (`cht[1..9]/C` gives nine columns). */
  readonly heading: number;
}
/** A typed log. Values are NaN where a cell holds none; a decimal of up to 15 digits is exact in a double and prints as written. */
export interface RunLog extends Fact {
  readonly columns: readonly LogColumn[];
  /** Seconds from the first row, midnight crossings counted; NaN where the label was not a time. */
  readonly time_s: Float64Array;
  /** One array a column. */
  readonly values: readonly Float64Array[];
  /** The line of each row. */
  readonly rows: Int32Array;
  /** First row's clock time in seconds of the day, or undefined for an elapsed log. */
  readonly startsAt: number | undefined;
  readonly todo: number;
}
export interface LogFile extends Fact { readonly path: string; readonly digest: string; readonly maps: readonly (Fact & { readonly heading: string; readonly column: string })[] }

/** Entries, runs, releases and dispatches: the blocks in which work is recorded. */
export interface WorkBlock extends BlockBase {
  readonly kind: "entry" | "run" | "release" | "dispatch";
  readonly job: string;
  /** Of an entry for work in service, outside any job. */
  readonly engine: string;
  readonly date: CivilDate | undefined;
  /** Seconds of the day, where a time is given. */
  readonly time: number | undefined;
  /** Of entries: the route step. Runs serve the step `stand`, releases `release`, dispatches `pack`, unless the route says otherwise. */
  readonly step: string;
  /** Of an entry without a job (work in service): hours at which it was done. */
  readonly atCounter: string;
  readonly atHours: Measure | undefined;
  /** Of runs: the stand, who ran it, who stood by, the schedule. Of releases: who released. */
  readonly stand: string;
  readonly by: string;
  readonly second: string;
  readonly runIn: string;
  readonly statement: string;
  readonly except: readonly string[];
  readonly to: string;
  readonly crate: string;
  readonly amends: readonly AmendsLine[];
  readonly air: readonly AirLine[];
  readonly readings: readonly Reading[];
  readonly torques: readonly TorqueLine[];
  readonly locked: readonly LockedLine[];
  readonly fits: readonly FitLine[];
  readonly removes: readonly RemoveLine[];
  readonly moves: readonly MoveLine[];
  readonly reworks: readonly ReworkLine[];
  readonly defects: readonly DefectLine[];
  readonly rectifies: readonly RectifyLine[];
  readonly defers: readonly DeferLine[];
  readonly concessions: readonly ConcessionLine[];
  readonly accepts: readonly AcceptLine[];
  readonly refuses: readonly RefuseLine[];
  readonly answers: readonly AnswerLine[];
  readonly openCloses: readonly OpenCloseLine[];
  readonly checks: readonly CheckLine[];
  readonly crackTests: readonly CrackTestLine[];
  readonly compressions: readonly CompressionTable[];
  readonly done: readonly DoneLine[];
  readonly embodied: readonly EmbodiedLine[];
  readonly oils: readonly OilLine[];
  readonly samples: readonly OilSample[];
  readonly fuels: readonly FuelLine[];
  readonly magnetos: readonly MagnetoLine[];
  readonly logs: readonly RunLog[];
  readonly logFiles: readonly LogFile[];
  readonly standing: readonly (Fact & { readonly value: Measure })[];
  readonly photos: readonly PhotoLine[];
  readonly signs: readonly SignLine[];
  /** The first content line that stands after a sign line, or -1. */
  readonly afterSign: At;
  readonly labour: readonly LabourLine[];
  readonly consumables: readonly ConsumableLine[];
  readonly receivedWith: readonly GoodsLine[];
  readonly packed: readonly GoodsLine[];
  readonly hours: readonly HoursLine[];
  readonly meters: readonly MeterLine[];
  readonly serials: readonly SerialLine[];
  readonly plate: string;
  readonly overhauled: readonly (Fact & { readonly on: CivilDate | undefined; readonly about: string })[];
}
export interface AccountBlock extends BlockBase {
  readonly kind: "account";
  readonly job: string;
  readonly rates: readonly (Fact & { readonly work: string; readonly value: Measure })[];
  readonly costs: readonly (Fact & { readonly title: string; readonly value: Measure })[];
}
export interface UnnamedBlock extends BlockBase { readonly kind: "unnamed" | "preface" }

export type Block =
  | ShopBlock | PersonBlock | InstrumentBlock | StandBlock | EngineTypeBlock | LimitsBlock | RunInBlock | TaskBlock | BulletinBlock | RouteBlock | AlertBlock
  | EngineBlock | JobBlock | WorkBlock | AccountBlock | UnnamedBlock;
