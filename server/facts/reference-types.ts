/** Facts of the reference side: shop, people, instruments, stands, types, limits, schedules, tasks, bulletins, routes, alerts. */
import type { BlockKind } from "../../grammar/words.ts";
import type { CivilDate } from "../quantity/civil-date.ts";
import type { Measure } from "../quantity/compare.ts";
import type { Bounds, Fact, Problem } from "./fact.ts";
import type { PlaceSet } from "./place.ts";

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

export interface Named extends Fact {
  readonly name: string;
}

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

export interface Dated {
  readonly from: CivilDate;
  readonly until: CivilDate | undefined;
}
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
  readonly calibrations: readonly (Fact & {
    readonly on: CivilDate;
    readonly until: CivilDate;
    readonly certificate: string;
  })[];
  readonly failures: readonly (Fact & { readonly on: CivilDate; readonly reason: string })[];
  readonly withdrawn: (Fact & { readonly on: CivilDate; readonly reason: string }) | undefined;
  readonly length: Measure | undefined;
  readonly material: string;
}

export interface StandBlock extends BlockBase {
  readonly kind: "stand";
  readonly channels: readonly (Fact & { readonly place: PlaceSet; readonly instrument: string })[];
  readonly clubs: readonly (Fact & {
    readonly name: string;
    readonly speeds: Bounds;
    readonly density: Measure;
    readonly points: readonly { readonly speed: Measure; readonly power: Measure }[];
  })[];
}

/** How power is corrected to reference air. */
export interface CorrectionLine {
  readonly rule: "none" | "iso-1585" | "sae-j1349-1990" | "sae-j607" | "maker";
  /** Of the maker's formula; undefined otherwise, and where a figure of it could not be read. */
  readonly maker:
    | {
        readonly source: string;
        readonly dry: Measure;
        readonly air: Measure;
        readonly pressurePower: number;
        readonly temperaturePower: number;
        readonly loss: number;
        readonly from: number;
        readonly until: number;
      }
    | undefined;
}

export interface EngineTypeBlock extends BlockBase {
  readonly kind: "engine-type";
  readonly layout:
    | (Fact & {
        readonly arrangement: "radial" | "inline" | "opposed" | "vee";
        readonly count: string;
        readonly angle: Measure | undefined;
      })
    | undefined;
  readonly numbering: { readonly sense: "clockwise" | "anticlockwise"; readonly end: "front" | "rear" } | undefined;
  readonly rotation: { readonly sense: "clockwise" | "anticlockwise"; readonly end: "front" | "rear" } | undefined;
  readonly mounting: Measure | undefined;
  readonly masterRods: readonly number[];
  readonly bore: Measure | undefined;
  readonly stroke: Measure | undefined;
  readonly firing: (Fact & { readonly order: readonly number[] }) | undefined;
  readonly correction: (Fact & CorrectionLine) | undefined;
  readonly lockCheckAfter: Measure | undefined;
  readonly places: readonly (Fact & { readonly place: PlaceSet; readonly title: string })[];
  readonly lives: readonly (Fact & { readonly part: string; readonly lives: readonly Measure[] })[];
  readonly materials: readonly (Fact & { readonly feature: string; readonly material: string })[];
}

export type Statistic = "value" | "taper" | "out-of-round" | "mean" | "spread";
export interface FormulaTerm {
  readonly sign: 1 | -1;
  readonly factor: number;
  readonly stat: "greatest" | "least" | "mean" | "each";
  readonly place: PlaceSet;
}
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
  /** An ISO 286 class or fit from which the new limits come; missing where the line names none. */
  readonly toleranceClass?: {
    /** `H7`, `p6`, `H7/p6`. */
    readonly text: string;
    readonly nominal: Measure;
    /** Why no limits follow from it, as a sentence; "" where they do. */
    readonly refused: string;
  };
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
/** A fastener that is tightened by its stretch. */
export interface StretchLimit extends Fact {
  readonly place: PlaceSet;
  /** The feature whose readings are the stretch. */
  readonly feature: string;
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
export interface MagnetoLimit extends Fact {
  readonly drop: Measure | undefined;
  readonly split: Measure | undefined;
  readonly speed: Measure | undefined;
  readonly reference: string;
}
export interface LimitsBlock extends BlockBase {
  readonly kind: "limits";
  readonly type: string;
  readonly revision: string;
  readonly from: CivilDate | undefined;
  readonly limits: readonly LimitLine[];
  readonly torques: readonly TorqueLimit[];
  readonly stretches: readonly StretchLimit[];
  readonly compressions: readonly CompressionLimit[];
  readonly magnetos: readonly MagnetoLimit[];
}

export interface RunInBlock extends BlockBase {
  readonly kind: "run-in";
  readonly type: string;
  readonly starts: readonly (Fact & {
    readonly channel: PlaceSet;
    readonly bounds: Bounds;
    readonly within: Measure;
  })[];
  readonly warms: readonly (Fact & {
    readonly channel: PlaceSet;
    readonly bounds: Bounds;
    readonly condition: PlaceSet;
    readonly limit: Measure;
  })[];
  readonly cools: readonly (Fact & { readonly channel: PlaceSet; readonly bounds: Bounds })[];
  readonly steps: readonly (Fact & {
    readonly name: string;
    readonly length: Measure;
    readonly condition: PlaceSet;
    readonly range: Bounds;
    readonly bounds: readonly { readonly channel: PlaceSet; readonly bounds: Bounds }[];
  })[];
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
export interface RouteStep extends Fact {
  readonly name: string;
  readonly after: readonly string[];
  readonly needs: readonly Need[];
}
export interface RouteBlock extends BlockBase {
  readonly kind: "route";
  readonly type: string;
  readonly steps: readonly RouteStep[];
}
export interface AlertBlock extends BlockBase {
  readonly kind: "alert";
  readonly on: CivilDate | undefined;
  readonly suspects: readonly (Fact & {
    readonly part: string;
    readonly batch: string;
    readonly serials: readonly string[];
  })[];
}
