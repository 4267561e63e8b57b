/** Facts of the record side: engines, jobs, entries, runs, releases, dispatches, accounts. */
import type { CivilDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import type { Unit } from "../quantity/units.ts";
import type { At, Fact } from "./fact.ts";
import type { PlaceSet } from "./place.ts";
import type { BlockBase } from "./reference-types.ts";

export interface HoursLine extends Fact {
  readonly counters: readonly { readonly name: string; readonly value: Measure }[];
  readonly on: CivilDate | undefined;
  readonly source: string;
}
export interface MeterLine extends Fact {
  readonly name: string;
  readonly value: Measure;
  readonly on: CivilDate | undefined;
}
export interface DoneLine extends Fact {
  readonly task: string;
  readonly on: CivilDate | undefined;
  readonly counter: string;
  readonly hours: Measure | undefined;
  readonly about: string;
}
export interface EmbodiedLine extends Fact {
  readonly bulletin: string;
  readonly on: CivilDate | undefined;
  readonly about: string;
}
export interface FitLine extends Fact {
  readonly part: string;
  readonly serial: string;
  readonly quantity: number;
  readonly batch: string;
  readonly source: string;
  readonly place: PlaceSet | undefined;
  readonly life: Measure | undefined;
  readonly sinceNew: Measure | undefined;
  readonly used: boolean;
  readonly on: CivilDate | undefined;
}
export interface SerialLine extends Fact {
  readonly place: PlaceSet | undefined;
  readonly number: string;
}
export interface PhotoLine extends Fact {
  readonly path: string;
  readonly caption: string;
  readonly digest: string;
}

export interface EngineBlock extends BlockBase {
  readonly kind: "engine";
  readonly type: string;
  readonly owner: string;
  readonly plate: string;
  readonly serials: readonly SerialLine[];
  readonly hours: readonly HoursLine[];
  readonly meters: readonly MeterLine[];
  readonly used: readonly (Fact & {
    readonly value: Measure;
    readonly from: CivilDate;
    readonly until: CivilDate;
    readonly source: string;
  })[];
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
  /** The line that names the instrument, where that is not the reading's own: a heading, or a `with` line above. */
  readonly namedAt: At;
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
  /** The line that names the instrument: its own, or a `with` line above. */
  readonly namedAt: At;
  readonly adapter:
    | { readonly extension: Measure; readonly length: Measure; readonly angle: Measure | undefined }
    | undefined;
  readonly setting: Measure | undefined;
  readonly drag: Measure | undefined;
  readonly retorque: boolean;
  readonly by: string;
}
export interface LockedLine extends Fact {
  readonly place: PlaceSet;
  readonly method: string;
}
export interface RemoveLine extends Fact {
  readonly part: string;
  readonly serial: string;
  readonly quantity: number;
  readonly place: PlaceSet | undefined;
  readonly scrapped: boolean;
  readonly about: string;
}
export interface MoveLine extends Fact {
  readonly from: PlaceSet;
  readonly to: PlaceSet;
}
export interface ReworkLine extends Fact {
  readonly place: PlaceSet;
  readonly size: Measure | undefined;
  readonly about: string;
}
export interface DefectLine extends Fact {
  readonly name: string;
  readonly place: PlaceSet;
  readonly about: string;
}
export interface RectifyLine extends Fact {
  readonly defect: string;
  readonly about: string;
}
export interface DeferLine extends Fact {
  readonly defect: string;
  readonly until: CivilDate | undefined;
  readonly limit: Measure | undefined;
  readonly by: string;
  readonly on: CivilDate;
  readonly reason: string;
}
export interface ConcessionLine extends Fact {
  readonly name: string;
  readonly of: string;
  readonly place: PlaceSet | undefined;
  readonly by: string;
  readonly on: CivilDate;
  readonly reason: string;
}
export interface AcceptLine extends Fact {
  readonly code: string;
  readonly ref: string;
  readonly place: PlaceSet | undefined;
  readonly by: string;
  readonly on: CivilDate;
  readonly reason: string;
}
export interface RefuseLine extends Fact {
  readonly role: string;
  readonly by: string;
  readonly on: CivilDate;
  readonly ref: string;
  readonly reason: string;
}
export interface AnswerLine extends Fact {
  readonly ref: string;
  readonly about: string;
}
export interface OpenCloseLine extends Fact {
  readonly what: string;
  readonly opens: boolean;
}
export interface CheckLine extends Fact {
  readonly name: string;
  readonly place: PlaceSet | undefined;
  readonly ok: boolean;
  readonly about: string;
  readonly instrument: string;
  readonly by: string /** For runs: how many log rows stand above it (0: before the log). */;
  readonly afterRows: number;
}
export interface CrackTestLine extends Fact {
  readonly place: PlaceSet;
  readonly method: string;
  readonly ok: boolean;
}
export interface CompressionRow extends Fact {
  readonly cylinder: string;
  readonly result: Reading["result"];
  readonly measure: Measure | undefined;
  readonly heard: readonly string[];
}
export interface CompressionTable extends Fact {
  readonly method: "differential" | "direct";
  readonly supply: Measure | undefined;
  readonly orifice: Measure | undefined;
  readonly state: "" | "hot" | "warm" | "cold";
  readonly instrument: string;
  readonly rows: readonly CompressionRow[];
}
export interface OilLine extends Fact {
  readonly what: "added" | "drained" | "filled";
  readonly value: Measure;
  readonly about: string;
}
export interface OilSample extends Fact {
  readonly name: string;
  readonly metals: readonly { readonly element: string; readonly value: Measure }[];
}
export interface FuelLine extends Fact {
  readonly value: Measure;
}
export interface MagnetoLine extends Fact {
  readonly left: Measure;
  readonly right: Measure;
  readonly speed: Measure | undefined;
}
/** Power at a speed: of arm and force, torque, and club exactly one way is written. */
export interface PowerLine extends Fact {
  readonly arm: Measure | undefined;
  readonly force: Measure | undefined;
  readonly torque: Measure | undefined;
  readonly club: string;
  readonly speed: Measure;
  readonly fuel: Measure | undefined;
  readonly density: Measure | undefined;
}
export interface SignLine extends Fact {
  readonly role: string;
  readonly person: string;
  readonly on: CivilDate;
  readonly time: number | undefined;
  /** As written, `1:<64 hex>`, or "". */
  readonly seal: string;
  /** SHA-256 (hex) over the canonical text of the block above this line; only worked out where a seal is written. */
  readonly textDigest: string;
}
export interface LabourLine extends Fact {
  readonly person: string;
  readonly value: Measure;
  readonly work: string;
}
export interface ConsumableLine extends Fact {
  readonly title: string;
  readonly batch: string;
  readonly expires: CivilDate | undefined;
}
export interface GoodsLine extends Fact {
  readonly title: string;
  readonly quantity: number;
  readonly serial: string;
}
export interface AirLine extends Fact {
  readonly temperature: Measure | undefined;
  readonly pressure: Measure | undefined;
  readonly humidity: Measure | undefined;
}
export interface AmendsLine extends Fact {
  readonly ref: string;
  readonly reason: string;
}

export interface LogColumn {
  readonly place: string;
  readonly feature: string;
  readonly path: string;
  readonly unit: Unit | undefined;
  readonly unitText: string;
  /** Which column word of the heading it comes from (`cht[1..9]/C` gives nine columns). */
  readonly heading: number;
  /** Of a data logger's file: the line that maps the column. */
  readonly mappedAt?: At;
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
/** Which column of a logger's file is the time, or which channel. */
export interface LogMap extends Fact {
  /** Heading in the file. */
  readonly heading: string;
  /** `channel`; or the time, by the clock or elapsed. */
  readonly kind: "channel" | "time" | "elapsed";
  /** Of a channel; undefined for a time and where the channel could not be read. */
  readonly column: LogColumn | undefined;
  /** Of an elapsed time: its unit. */
  readonly unit: Unit | undefined;
}
export interface LogFile extends Fact {
  readonly path: string;
  readonly digest: string;
  readonly maps: readonly LogMap[];
}

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
  readonly powers: readonly PowerLine[];
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
